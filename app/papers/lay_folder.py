"""The folder of a lay: lay.json, its plan in all forms and its cut ticket, all of them or none."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from app.hold.on_lay import hold_notes
from app.lay.job import LayJob
from app.papers import registry
from app.papers.paper_folder import write_folder
from app.papers.shown import Laid
from app.papers.ticket_figures import CutTicket, TicketLay
from app.style.model import Style
from nesting.files import lay_file
from nesting.verify.fault import Verdict


def write_lay_files(
    style: Style, job: LayJob, document: dict[str, Any], verdict: Verdict, out: Path
) -> list[Path]:
    """Write them and return their paths. Raises UsageError when the folder cannot be written."""
    ticket = CutTicket(
        style=style,
        pairs=job.pairs_cut,
        lays=(TicketLay("1", document, verdict, job.plies, job.mode),),
        cloth_id=job.cloth.id,
        notes=hold_notes(document),
    )

    def fill(draft: Path) -> list[Path]:
        written = registry.write(Laid(document, verdict, style, ticket), draft)
        lay_file.write(draft / "lay.json", document)
        return [draft / "lay.json", *written]

    return write_folder(out, fill)
