"""The one way in: a DXF file -> its pieces in mm, with all that was noticed on the way."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

import numpy as np
from ezdxf.document import Drawing as DxfDocument
from ezdxf.entities import DXFEntity

from geometry import tolerances
from geometry.dxf import layer_scheme as dxf_aama
from geometry.dxf import pieces as dxf_pieces
from geometry.dxf.drafts import FrameAnswer
from geometry.dxf.file.load import load
from geometry.dxf.file.raw import zero_scaled as zero_scaled_inserts
from geometry.dxf.file.text import clean
from geometry.dxf.grade_rules import GradeRules, read_rules, rules_beside
from geometry.dxf.lines import effort
from geometry.dxf.lines.collect import CURVES, Collector
from geometry.dxf.scale import in_mm, largest_side, moved, unit_choices_of
from geometry.dxf.units import MM_PER, Stated, UnitChoice, question, settle, stated_unit
from geometry.errors import DrawingError, GeometryError
from geometry.findings import Finding, Severity
from geometry.piece import DrawnPiece
from geometry.said import joined, said

Unit = Literal["auto", "mm", "cm", "m", "in"]


@dataclass(frozen=True)
class LeftOut:
    """Something in the file that became no part of a piece, and why."""

    what: str
    why: str


@dataclass(frozen=True)
class ReadDrawing:
    """What a drawing holds.

    ``unit_from``: text, header, guess or person; ``version``: the pattern scheme that the file
    says it follows; ``rules_from``: the grade rule file that sizes were made from.
    """

    pieces: tuple[DrawnPiece, ...]
    findings: tuple[Finding, ...]
    left_out: tuple[LeftOut, ...]
    unit: str
    unit_from: str
    unit_choices: tuple[UnitChoice, ...]
    style_name: str = ""
    base_size: str = ""
    sizes: tuple[str, ...] = ()
    version: str = ""
    rules_from: str = ""


def read_drawing(
    path: str | os.PathLike[str],
    *,
    unit: Unit = "auto",
    chord_mm: float = tolerances.CHORD_MM,
    join_mm: float = tolerances.JOIN_MM,
    rules: str | os.PathLike[str] | None = None,
    frame: FrameAnswer = "ask",
    told: effort.Told | None = None,
) -> ReadDrawing:
    """Read a DXF drawing into pieces in mm, in the drawing's own frame.

    ``unit``: the unit of its coordinates, or "auto" to go by the file (a finding of severity ``question``
    then says what is doubtful); ``chord_mm``: largest distance between a curve and its polyline;
    ``join_mm``: largest gap between line ends that is closed; ``rules``: the grade rule file of a pattern
    file, None takes the one of its name that lies beside it; ``frame``: what becomes of a rectangle that
    looks like the sheet's frame (a finding of severity ``question`` when "ask"); ``told`` is called with
    the name of each step of a long reading.

    Raises DrawingError when a file cannot be read, expands beyond the limits, or holds no
    closed outline at all.
    """
    path = Path(path)
    size_bytes = path.stat().st_size if path.is_file() else 0
    try:
        with (
            np.errstate(over="ignore", invalid="ignore", divide="ignore"),  # absurd numbers are reported
            effort.counted(path.name, size_bytes, told),
        ):
            return _read(path, unit, chord_mm, join_mm, rules, frame)
    except (GeometryError, OSError, MemoryError):
        raise
    except Exception as error:  # the library raises errors of many kinds where a file is damaged
        raise DrawingError(
            said("the drawing is damaged ({0}: {1})", type(error).__name__, clean(str(error))[:120]),
            file=path.name,
            remedy="open it in the program that made it and export it again",
        ) from error


def _read(
    path: Path,
    unit: Unit,
    chord_mm: float,
    join_mm: float,
    rules: str | os.PathLike[str] | None,
    frame: FrameAnswer,
) -> ReadDrawing:
    if unit != "auto" and unit not in MM_PER:
        raise DrawingError(
            said("there is no unit {0}", unit),
            file=path.name,
            remedy=said("give {0} or auto", ", ".join(MM_PER)),
            code="BAD_UNIT",
        )
    for value, word in ((chord_mm, "chord"), (join_mm, "join")):
        if not 1e-4 <= value <= 100.0:
            raise DrawingError(
                said("a {0} distance of {1} mm is not possible", word, f"{value:g}"),
                file=path.name,
                remedy="give 0.0001 to 100 mm",
                code="BAD_TOLERANCE",
            )
    effort.step("reading the file")
    loaded = load(path)
    effort.step("following the blocks")
    findings = list(loaded.findings)
    entities, more = _space(loaded.document, path.name)
    findings += more
    insunits, measurement = loaded.tags.header("$INSUNITS"), loaded.tags.header("$MEASUREMENT")
    if unit == "auto":
        stated = stated_unit(_texts(loaded.document), insunits, measurement)
    else:
        stated = Stated(unit, MM_PER[unit], "person")
    zero_scaled = frozenset(zero_scaled_inserts(loaded.tags))
    first = stated.mm or 1.0
    sheet = Collector(loaded.document, path.name, chord_mm / first, zero_scaled).collect(entities)
    largest = largest_side(sheet)
    if unit == "auto":
        name, mm, source, doubt = settle(stated, largest, measurement)
    else:
        name, mm, source, doubt = unit, MM_PER[unit], "person", ""
    if mm != first:
        sheet = Collector(loaded.document, path.name, chord_mm / mm, zero_scaled).collect(entities)
    choices = unit_choices_of(sheet)
    if doubt and sheet.curves:
        findings.append(question(name, doubt, choices))
    findings += sheet.findings
    scaled, shift = in_mm(sheet, mm)
    left_out = Counter(sheet.left_out)
    pieces: list[DrawnPiece] = []
    made_findings: list[Finding] = []
    head, rules_from = dxf_aama.Heading(), ""
    if dxf_aama.is_pattern_file(scaled):
        head = dxf_aama.heading(scaled)
        table, noticed = _rules_for(path, rules, head)
        findings += noticed
        rules_from = table[1] if table else ""
        made, rest = dxf_aama.pieces_of(scaled, chord_mm, join_mm, table[0] if table else None)
        pieces += made.pieces
        made_findings += made.findings
        left_out += made.left_out
        scaled = rest
    elif rules is not None:
        raise DrawingError(
            "grade rules go with a pattern file of layers after ASTM D6673, which this is not",
            file=path.name,
            remedy="leave the rule file out; sizes are graded by the last",
            code="BAD_RULES",
        )
    effort.step("joining the lines")
    made = dxf_pieces.pieces_of(scaled, chord_mm, join_mm, frame)
    pieces += made.pieces
    made_findings += made.findings
    left_out += made.left_out
    if not pieces:
        raise _nothing(path.name, [*findings, *made_findings], left_out)
    if shift.any():
        pieces = [moved(piece, shift) for piece in pieces]
        made_findings = [
            replace(f, where_mm=tuple((x + shift[0], y + shift[1]) for x, y in f.where_mm))
            for f in made_findings
        ]
    return ReadDrawing(
        pieces=tuple(pieces),
        findings=tuple(findings + made_findings),
        left_out=tuple(
            LeftOut(f"{count} {what}" if count > 1 else what, why)
            for (what, why), count in sorted(left_out.items())
        ),
        unit=name,
        unit_from=source,
        unit_choices=choices,
        style_name=head.style_name,
        base_size=head.base_size,
        version=head.version,
        rules_from=rules_from,
        sizes=tuple(dict.fromkeys(piece.size for piece in pieces if piece.size)),
    )


def _rules_for(
    path: Path, given: str | os.PathLike[str] | None, head: dxf_aama.Heading
) -> tuple[tuple[GradeRules, str] | None, list[Finding]]:
    """Return the grade rules of a pattern file and their file's name, and what does not agree."""
    file = rules_beside(path) if given is None else Path(given)
    if file is None:
        if not head.rule_table:
            return None, []
        return None, [
            Finding(
                code="RULES_MISSING",
                severity=Severity.QUESTION,
                message=said("the drawing goes with a grade rule table, {0}", head.rule_table),
                done="only the sizes drawn are read",
                advice=said(
                    "put {0}.rul beside the drawing, name it with --rules, or grade by the last", path.stem
                ),
            )
        ]
    try:
        table = read_rules(file)
    except DrawingError as error:
        if given is not None:
            raise
        way_out = f"{error.remedy}, or move it away from the drawing to read the sizes drawn"
        raise DrawingError(error.message, file=error.file, remedy=way_out, code=error.code) from None
    if head.base_size and head.base_size != table.sample:
        raise DrawingError(
            said("its sample size is {0}, the drawing's {1}", table.sample, head.base_size),
            file=file.name,
            remedy="name the rule file that belongs to the drawing",
            code="BAD_RULES",
        )
    if head.rule_table and table.table and head.rule_table.lower() != table.table.lower():
        return (table, file.name), [
            Finding(
                code="RULES_NAMED_OTHERWISE",
                severity=Severity.QUESTION,
                message=said(
                    "the drawing asks for the grade rule table {0}, {1} holds {2}",
                    head.rule_table,
                    file.name,
                    table.table,
                ),
                done="sizes are made from it",
                advice="make sure that it belongs to the drawing",
            )
        ]
    return (table, file.name), []


def _space(document: DxfDocument, file: str) -> tuple[list[DXFEntity], list[Finding]]:
    """Return the model space; where it is empty, the sheet that holds the drawing."""
    model: list[DXFEntity] = list(document.modelspace())
    if any(entity.dxftype() in CURVES or entity.dxftype() == "INSERT" for entity in model):
        return model, []
    sheets: list[tuple[str, list[DXFEntity]]] = []
    for layout in document.layouts:
        if layout.name.lower() == "model":
            continue
        entities: list[DXFEntity] = list(layout)
        if any(entity.dxftype() in CURVES or entity.dxftype() == "INSERT" for entity in entities):
            sheets.append((clean(layout.name), entities))
    if sheets:
        sheets.sort(key=lambda item: -len(item[1]))
        others = ", ".join(name for name, _ in sheets[1:])
        return sheets[0][1], [
            Finding(
                code="PAPER_SPACE",
                severity=Severity.QUESTION,
                message=said("model space is empty; the drawing stands on the paper sheet {0}", sheets[0][0]),
                done=joined("read from that sheet", said("not read: {0}", others) if others else ""),
                advice="make sure that the sheet is drawn 1:1, or draw the pieces in model space",
            )
        ]
    blocks = [
        block
        for block in document.blocks
        if not block.name.startswith(("*", "$", "_"))
        and any(e.dxftype() in CURVES for e in block)
        and any(e.dxftype() == "TEXT" and "piece name" in str(e.dxf.text).lower() for e in block)
    ]
    if blocks:
        for block in blocks:
            document.modelspace().add_blockref(block.name, (0, 0))
        return list(document.modelspace()), [
            Finding(
                code="BLOCKS_NOT_PLACED",
                severity=Severity.WARNING,
                message=said("the file defines {0} piece blocks but places none", len(blocks)),
                done="each is read as if placed at the origin",
            )
        ]
    return model, []


def _texts(document: DxfDocument) -> Iterable[str]:
    """All texts of the drawing and its blocks, for the unit they may name."""
    for space in [document.modelspace(), *document.blocks]:
        for entity in space:
            if entity.dxftype() == "TEXT":
                yield clean(str(entity.dxf.get("text", "")))
            elif entity.dxftype() == "MTEXT":
                yield clean(str(entity.text))


def _nothing(file: str, findings: list[Finding], left_out: Counter[tuple[str, str]]) -> DrawingError:
    """Say why there is no piece: the open outline, the hidden layers, or plainly nothing."""
    for finding in findings:
        if finding.code == "OPEN_OUTLINE":
            return DrawingError(
                said("no closed outline: {0}", finding.message),
                file=file,
                remedy=finding.advice,
                code="OPEN_OUTLINE",
            )
    some = [(n, what, reason) for (what, reason), n in left_out.most_common(4) if n]
    why = joined(*(said("{0} {1}: {2}", *each) for each in some))
    harm = ("TRUNCATED", "OUT_OF_STEP", "LOST_ENTITIES", "BAD_COORDINATE", "BAD_ENTITY")
    damaged = sorted((f for f in findings if f.code in harm), key=lambda f: harm.index(f.code))
    if damaged:
        why = joined(*dict.fromkeys([damaged[0].message, why]))
    return DrawingError(
        said("no closed outline in the drawing ({0})", why or said("it is empty")),
        file=file,
        remedy="draw each piece as a closed outline in model space",
        code=damaged[0].code if damaged else "NO_OUTLINE",
    )
