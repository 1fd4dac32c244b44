"""The folder of a lay: lay.json, its plan in all forms and its cut ticket, all of them or none."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from app.atomic import whole_folder
from app.errors import UsageError
from app.hold.on_lay import hold_notes
from app.lay.job import LayJob
from app.papers import registry
from app.papers.shown import Laid
from app.papers.ticket_figures import CutTicket, TicketLay
from app.style.model import Style
from geometry.said import said
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
    try:
        with whole_folder(out) as draft:
            written = registry.write(Laid(document, verdict, style, ticket), draft)
            lay_file.write(draft / "lay.json", document)
            names = [draft / "lay.json", *written]
            files = [out / path.relative_to(draft) for path in names]
    except OSError as error:
        raise UsageError(
            said("cannot be written ({0})", error.strerror or error),
            file=str(out),
            remedy="choose another folder",
        ) from None
    return files
