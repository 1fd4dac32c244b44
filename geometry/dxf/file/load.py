"""From the bytes of a drawing to an ezdxf document, every repair reported."""

from __future__ import annotations

import gc
import io
import logging
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import ezdxf
from ezdxf import recover
from ezdxf.document import Drawing as DxfDocument

from geometry.dxf.file import raw as dxf_raw
from geometry.dxf.file import sniff as dxf_sniff
from geometry.dxf.file import text as dxf_text
from geometry.errors import DrawingError
from geometry.findings import Finding, Severity
from geometry.said import said

logging.getLogger("ezdxf").setLevel(logging.CRITICAL)  # its remarks reach the user as findings


@dataclass(frozen=True)
class Loaded:
    """The document and the file's own tags, with what was repaired on the way."""

    document: DxfDocument
    tags: dxf_raw.RawTags
    findings: tuple[Finding, ...]


def load(path: Path) -> Loaded:
    """Read a drawing, repairing what can be repaired without guessing at shapes.

    Raises DrawingError when the file is not a DXF, or is damaged beyond that.
    """
    name = path.name
    text, _binary = dxf_text.drawing_text(dxf_sniff.read_bytes(path), name)
    tags, bad_line = dxf_raw.scan(text, name)
    findings: list[Finding] = []
    if bad_line:
        findings.append(
            Finding(
                code="OUT_OF_STEP",
                severity=Severity.WARNING,
                message=said("line {0} should hold a group code: the file is damaged there", bad_line),
                done="read up to that line",
                advice="compare the pieces with the drawing, or export it again",
            )
        )
    if not tags.has_end:
        tags, lost = dxf_raw.cut_at_last_whole_entity(tags)
        findings.append(
            Finding(
                code="TRUNCATED",
                severity=Severity.WARNING,
                message="the file ends part-way through"
                if lost != "the end mark"
                else "the end mark is missing",
                done=said("read up to that point; dropped: {0}", lost)
                if lost != "the end mark"
                else "read as it stands",
                advice="compare the pieces with the drawing, or export it again",
            )
        )
    dxf_raw.check_numbers(tags, name)
    newer = dxf_raw.with_true_version(tags)
    if newer is not None:
        tags = newer
        findings.append(
            Finding(
                code="VERSION_RAISED",
                severity=Severity.NOTE,
                message="the file holds entities that its version does not know",
                done="read as R2000",
            )
        )
    missing = dxf_raw.without_markers(tags)
    if missing:
        tags = dxf_raw.with_markers(tags, missing)
        findings.append(
            Finding(
                code="NO_CLASS_MARKER",
                severity=Severity.NOTE,
                message=said("{0} entities lack the class marker of their kind", len(missing)),
                done="added",
            )
        )
    document, recovered = _document(tags.text(), name)
    if recovered:
        findings.append(
            Finding(
                code="RECOVERED",
                severity=Severity.WARNING,
                message=said("the file breaks the rules of the format ({0})", recovered),
                done="read in recovery mode",
                advice="compare the pieces with the drawing",
            )
        )
    findings += _lost_entities(tags, document)
    return Loaded(document, tags, tuple(findings))


def _document(text: str, name: str) -> tuple[DxfDocument, str]:
    """Return the document and why it needed recovery (empty: it did not)."""
    collecting = gc.isenabled()
    gc.disable()  # millions of small tags are made and none is garbage: half the time went there
    try:
        return _read_or_recover(text, name)
    finally:
        if collecting:
            gc.enable()


def _read_or_recover(text: str, name: str) -> tuple[DxfDocument, str]:
    try:
        return _with_model(ezdxf.read(io.StringIO(text))), ""
    except Exception as error:  # the library raises errors of many kinds on a damaged file
        reason = dxf_text.clean(str(error))[:120] or type(error).__name__
    try:
        document, _auditor = recover.read(io.BytesIO(text.encode("ascii", errors="dxfreplace")))
        return _with_model(document), reason
    except Exception:
        raise DrawingError(
            said("the drawing is damaged ({0})", reason),
            file=name,
            remedy="open it in the program that made it and export it again",
            code="BAD_DRAWING",
        ) from None


def _with_model(document: DxfDocument) -> DxfDocument:
    """Return the document; raises ValueError where its model space is gone, which no reader puts back."""
    if "Model" not in document.layouts:
        raise ValueError("its model space is missing")
    return document


def _lost_entities(tags: dxf_raw.RawTags, document: DxfDocument) -> list[Finding]:
    """Compare what the file holds with what the reader kept."""
    kept: Counter[str] = Counter()
    for block in document.blocks:
        kept.update(entity.dxftype() for entity in block)
    lost = {
        kind: count - kept[kind]
        for kind, count in sorted(tags.entity_counts().items())
        if count > kept[kind] and kind in dxf_raw.MARKERS
    }
    if not lost:
        return []
    words = ", ".join(f"{count} {kind}" for kind, count in lost.items())
    return [
        Finding(
            code="LOST_ENTITIES",
            severity=Severity.ERROR,
            message=said("{0} could not be read", words),
            done="left out",
            advice="export the drawing again; compare the pieces with it",
        )
    ]
