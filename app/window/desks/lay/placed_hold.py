"""What turning the selected piece off the tight direction costs along its hold line."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.style.model import Style
from app.tools.lay_table import LayTable
from app.window.running.hold_judge import HoldJudge
from app.window.widgets.lengths import Lengths

translate = QCoreApplication.translate
STRAIGHT_DEG = 0.05
"""Less than this is not shown as a turn."""


class PlacedHoldJudge(HoldJudge):
    """Judges the size of the selected piece; ``judged`` when its figure is there."""

    def text(self, style: Style, table: LayTable, chosen: frozenset[int], lengths: Lengths) -> str:
        """Return what one selected piece gives more as it lies; '' where nothing is to be said."""
        if len(chosen) != 1:
            return ""
        index = min(chosen)
        off = table.off_axis_deg(index)
        if off <= STRAIGHT_DEG:
            return ""
        item = table.problem.by_id[table.placements[index].item_id]
        size = item.size if item.size in style.size_run.sizes else ""
        self.ask(style, size=size)
        held = self.held_for(style, size)
        name = item.piece.split(", layer ")[0].split(", part ")[0]
        pieces = held.pieces if held is not None else ()
        piece = next((p for p in pieces if p.piece == name and p.has_line), None)
        if piece is None:
            return ""
        turned = piece.turned(off)
        extra = piece.extra_mm(off)
        more = f"{'+' if extra >= 0.0 else ''}{lengths.text(extra)}"
        text = translate("Lay", "{0} along the pull, predicted by the hold line").format(more)
        if turned.holds is False:
            said = translate("Lay", "BREAKS its limit")
            return f"{text} · {said}"
        chains = held.chains if held is not None else ()
        broken = [c.name for c in chains if c.with_turns({piece.piece: off}).holds is False]
        if not broken:
            return text
        said = translate("Lay", "BREAKS the limit of {0}").format(", ".join(broken))
        return f"{text} · {said}"
