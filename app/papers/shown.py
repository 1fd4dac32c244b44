"""What papers show, a class per kind: all papers of a kind are made of the same thing.

Light to load: what draws is loaded by ``registry`` when a paper is asked for.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from app.measures import METRIC, Measures

if TYPE_CHECKING:
    from app.hold.cloth_choice import TriedCloth
    from app.hold.field import Pulled
    from app.hold.two_models import TwoModels
    from app.hold.verdicts import StyleHold
    from app.papers.ticket_figures import CutTicket
    from app.plan.job import ClothPlan, PlanJob
    from app.press.report import PressCloth
    from app.style.model import Style
    from app.workshop.trial_book import Calibration
    from app.workshop.two_predictions import PredictionComparison
    from geometry.piece import BackingPiece, UpperPiece
    from geometry.stretch.fit import StretchFit
    from geometry.stretch.strips import PulledStrip
    from geometry.trace.sheet import TraceSheet
    from nesting.verify.fault import Verdict


@dataclass(frozen=True, eq=False)
class Drafted:
    """Uppers and their backings, to be drawn at full size.

    One entry per piece, size and hand (an upper with several layers: one entry per layer; None = not
    backed). ``sheet``: ``A4`` .. ``A0`` or ``roll:WIDTH_MM``; '' takes the smallest that holds the
    largest board. ``tiled`` cuts the boards into A4 or A3 pages to be stuck together.
    """

    style: Style
    pairs: Sequence[tuple[UpperPiece, BackingPiece | None]]
    sheet: str = ""
    tiled: bool = False


@dataclass(frozen=True, eq=False)
class Reinforced:
    """A style at a glance: its uppers and backings in the base size, one hand."""

    style: Style
    pairs: Sequence[tuple[UpperPiece, BackingPiece | None]]


@dataclass(frozen=True, eq=False)
class Laid:
    """A lay: ``document`` is the object of lay.json, ``verdict`` nesting.verify's judgement of it.

    A lay of several styles has no ``style`` and no ``ticket``.
    """

    document: dict[str, Any]
    verdict: Verdict
    style: Style | None = None
    ticket: CutTicket | None = None


@dataclass(frozen=True, eq=False)
class PlannedRun:
    """A run plan: ``payload`` is the object of ``plan --json``, ``plans`` its lays, cloth by cloth."""

    job: PlanJob
    payload: Mapping[str, Any]
    plans: Sequence[ClothPlan]
    name: str
    measures: Measures = METRIC


@dataclass(frozen=True, eq=False)
class Pressed:
    """What a press cuts: ``payload`` is the object of ``press --json``, ``plans`` its dies and stacks."""

    payload: Mapping[str, Any]
    plans: Sequence[PressCloth]


@dataclass(frozen=True, eq=False)
class Costed:
    """Fabric and cost of a pair: ``cost`` is the object of ``cost --json``, ``cloth_id`` costed first."""

    style: Style
    cost: Mapping[str, Any]
    cloth_id: str = ""
    measures: Measures = METRIC


@dataclass(frozen=True, eq=False)
class Held:
    """What a style gives along the pull, its cloth turned by ``turn_deg``; other cloths in its place.

    ``beside`` is what the field says beside the line's figures.
    """

    style: Style
    held: StyleHold
    turn_deg: float = 0.0
    candidates: Sequence[TriedCloth] = ()
    trials: Mapping[str, Calibration] = field(default_factory=dict)
    beside: str = ""


@dataclass(frozen=True, eq=False)
class PulledOver:
    """The pull over the whole upper, as the field tells it and beside the line's figures."""

    style: Style
    pulled: Pulled
    models: TwoModels


@dataclass(frozen=True, eq=False)
class Compared:
    """Lasting trials with what line and field had predicted; ``name`` stands at the head."""

    name: str
    found: PredictionComparison


@dataclass(frozen=True, eq=False)
class Tested:
    """Strips of a material and the sheet fitted to them; ``zero`` says what 0 deg is.

    ``how`` is ``example`` where readings were invented; the report then says so.
    """

    name: str
    strips: Sequence[PulledStrip]
    fit: StretchFit
    zero: str = "along the roll"
    how: str = "tested"


@dataclass(frozen=True, eq=False)
class CardSheet:
    """The sheet that cards are laid on to be photographed; ``file`` is what its PDF is called."""

    sheet: TraceSheet
    file: str = "trace-sheet.pdf"
