"""The lays of a run: into every lay's folder its plan, its cutter files and its ticket."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from app.hold.on_lay import hold_notes
from app.papers import cut_ticket, registry
from app.papers.formats.drawing import Page
from app.papers.lay_facts import require_verified
from app.papers.shown import Laid, PlannedRun
from app.papers.ticket_figures import CutTicket, TicketLay
from app.plan.job import ClothPlan
from app.style.model import Style
from app.words import listed, say, sentence
from nesting.planning.splices import splices


def pages(shown: PlannedRun) -> list[Page]:
    """Return the cut tickets of all lays, one behind the other."""
    return [page for _, laid in laid_of(shown) for page in cut_ticket.pages(laid)]


def write(shown: PlannedRun, out_dir: Path) -> list[Path]:
    """Write every paper of every lay into the lay's folder.

    Raises UnverifiedError, and writes nothing, when a lay is not verified.
    """
    lays = list(laid_of(shown))
    for name, laid in lays:
        require_verified(laid.verdict, say("lay {0}", name))
    paths = []
    for name, laid in lays:
        (out_dir / name).mkdir(parents=True, exist_ok=True)
        paths += registry.write(laid, out_dir / name)
    return paths


def laid_of(shown: PlannedRun) -> Iterator[tuple[str, Laid]]:
    """Yield every lay with the name of its folder.

    A run of several styles has no ticket of one style: its lays' pictures and tables stand in the run plan.
    """
    job = shown.job
    style = job.styles[0] if len(job.styles) == 1 else None
    for plan in shown.plans:
        for lay_name, lay in zip(plan.names, plan.plan.lays, strict=True):
            document, verdict = plan.documents[lay_name], plan.verdicts[lay_name]
            ticket = None if style is None else _ticket(shown, style, plan, lay_name, lay.plies)
            yield say("{0}-{1}", plan.cloth.id, lay_name), Laid(document, verdict, style, ticket)


def _ticket(shown: PlannedRun, style: Style, plan: ClothPlan, lay_name: str, plies: int) -> CutTicket:
    document, verdict = plan.documents[lay_name], plan.verdicts[lay_name]
    return CutTicket(
        style=style,
        pairs=document["pairs_cut"],
        lays=(TicketLay(lay_name, document, verdict, plies, shown.job.mode),),
        cloth_id=plan.cloth.id,
        order=say("lay {0}", lay_name)
        if shown.name == style.name
        else say("{0}, lay {1}", shown.name, lay_name),
        roll_number=_roll_words(plan, lay_name),
        notes=(*(sentence(words) for words in splice_words(document)), *hold_notes(document)),
    )


def _roll_words(plan: ClothPlan, lay_name: str) -> str:
    """From which rolls a lay is spread, with the lots; '' where no roll list was given."""
    if plan.allocation is None:
        return ""
    uses = [use for use in plan.allocation.uses if lay_name in use.plies]
    return listed("; ")(
        say(
            "{0}{1} from {2} m: {3} plies",
            use.roll,
            say(" ({0})", use.lot) if use.lot else "",
            f"{use.from_m:g}",
            use.plies[lay_name],
        )
        for use in uses
    )


def splice_words(document: Mapping[str, Any]) -> tuple[str, ...]:
    """Where a roll may end in a lay, for the cutter; measures from the lay's beginning."""
    spans = []
    for at in document["placements"]:
        along = [x for x, _ in at["outline_mm"]]
        spans.append((min(along), max(along)))
    places = splices(spans, document["length_mm"])
    if not places:
        return ()
    told = listed("; ")(
        say(
            "one ends at {0} m, the next begins at {1} m",
            f"{place.ends_mm / 1000:.2f}",
            f"{place.begins_mm / 1000:.2f}",
        )
        for place in places
    )
    return (say("rolls may be spliced within a ply, no piece cut: {0}. One lot in a ply.", told),)
