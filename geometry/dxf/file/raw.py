"""The tags of a DXF as they stand, before any library fills in what is missing.

Nothing is interpreted here but what must be checked on the file itself: that codes and values
are in step, numbers are numbers, the end is there, and which unit the header actually names.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

import numpy as np

from geometry.errors import DrawingError
from geometry.said import said

_PARTS = {"VERTEX", "SEQEND", "ATTRIB", "BLOCK", "ENDBLK", "SECTION", "ENDSEC", "EOF"}
_WITH_PARTS = {"POLYLINE", "INSERT"}

MARKERS: dict[str, tuple[str, ...]] = {
    "LINE": ("AcDbLine",),
    "LWPOLYLINE": ("AcDbPolyline",),
    "CIRCLE": ("AcDbCircle",),
    "ELLIPSE": ("AcDbEllipse",),
    "SPLINE": ("AcDbSpline",),
    "POINT": ("AcDbPoint",),
    "MTEXT": ("AcDbMText",),
    "INSERT": ("AcDbBlockReference", "AcDbMInsertBlock"),
    "HATCH": ("AcDbHatch",),
    "ARC": ("AcDbArc",),
    "TEXT": ("AcDbText",),
    "POLYLINE": ("AcDb2dPolyline", "AcDb3dPolyline", "AcDbPolygonMesh", "AcDbPolyFaceMesh"),
    "VERTEX": ("AcDbVertex", "AcDb2dVertex", "AcDb3dPolylineVertex", "AcDbFaceRecord"),
}
"""Entity -> the class that holds all its data (from R13 on the file must name it), and its
other name where there is one."""

_COMMON_CODES = {5, 102, 330, 360, 100, 67, 410, 8, 6, 347, 62, 370, 48, 60, 92, 310, 420, 430, 440, 390, 284}


@dataclass
class RawTags:
    """Codes and values of a text DXF, with the places of all structure tags (code 0)."""

    codes: list[int]
    values: list[str]
    starts: list[int] = field(default_factory=list)

    @property
    def version(self) -> str:
        """$ACADVER as written, or an empty text."""
        return self.header("$ACADVER") or ""

    def header(self, name: str) -> str | None:
        """Return a header variable's first value as written, None where the file has none."""
        for i in range(len(self.codes) - 1):
            if self.codes[i] == 9 and self.values[i].strip() == name:
                return self.values[i + 1].strip()
            if self.codes[i] == 2 and self.values[i].strip() in ("BLOCKS", "ENTITIES"):
                break
        return None

    @property
    def has_end(self) -> bool:
        """Whether the file ends with EOF."""
        return bool(self.starts) and self.values[self.starts[-1]].strip() == "EOF"

    def sections(self) -> list[tuple[str, int, int]]:
        """Return (name, index into starts of SECTION, index of its ENDSEC or of the end)."""
        found: list[tuple[str, int, int]] = []
        name, begin = "", -1
        for k, at in enumerate(self.starts):
            word = self.values[at].strip()
            if word == "SECTION":
                if begin >= 0:
                    found.append((name, begin, k))
                name = self.values[at + 1].strip() if at + 1 < len(self.values) else ""
                begin = k
            elif word in ("ENDSEC", "EOF") and begin >= 0:
                found.append((name, begin, k))
                begin = -1
        if begin >= 0:
            found.append((name, begin, len(self.starts)))
        return found

    def entity_counts(self) -> Counter[str]:
        """Count the entities of ENTITIES and BLOCKS by type, without their parts."""
        counts: Counter[str] = Counter()
        for name, begin, end in self.sections():
            if name in ("ENTITIES", "BLOCKS"):
                counts.update(self.values[self.starts[k]].strip() for k in range(begin + 1, end))
        for part in _PARTS:
            counts.pop(part, None)
        return counts

    def text(self) -> str:
        """The tags as a text DXF."""
        out: list[str] = []
        for code, value in zip(self.codes, self.values, strict=True):
            out += (str(code), value)
        return "\n".join(out) + "\n"


def scan(text: str, name: str) -> tuple[RawTags, int]:
    """Return the tags up to the first place where codes and values fall out of step.

    The second value is the number of that line, 0 where the whole file is in step. Raises
    DrawingError when not even the first tags are those of a DXF.
    """
    lines = text.split("\n")
    while lines and not lines[-1].strip():
        lines.pop()
    if len(lines) % 2:
        lines.append("")  # an empty last value, or a cut-off file
    bad_line = 0
    try:
        codes = list(map(int, lines[0::2]))
    except ValueError:
        codes = []
        for i, line in enumerate(lines[0::2]):
            try:
                codes.append(int(line))
            except ValueError:
                bad_line = 2 * i + 1
                break
    values = lines[1::2][: len(codes)]
    starts = np.flatnonzero(np.array(codes, dtype=np.int64) == 0).tolist()
    tags = RawTags(codes, values, starts)
    words = {values[at].strip() for at in starts}
    if not words & {"SECTION", "EOF"}:
        raise DrawingError(
            "this is not a DXF drawing (it has no sections)",
            file=name,
            remedy="save it as DXF in the program that made it",
            code="NOT_DXF",
        )
    return tags, bad_line


def check_numbers(tags: RawTags, name: str) -> None:
    """Raise DrawingError (BAD_NUMBER, with the line) when a coordinate is not a number.

    A reader that accepts "50,5" reads 50: a wrong piece without a warning.
    """
    for section, begin, end in tags.sections():
        if section not in ("ENTITIES", "BLOCKS"):
            continue
        first = tags.starts[begin]
        last = tags.starts[end] if end < len(tags.starts) else len(tags.codes)
        codes = np.array(tags.codes[first:last], dtype=np.int64)
        measured = ((codes >= 10) & (codes <= 59)) | ((codes >= 210) & (codes <= 239))
        places = (np.flatnonzero(measured) + first).tolist()
        try:
            list(map(float, [tags.values[i] for i in places]))
        except ValueError:
            for i in places:
                _check_number(tags.values[i], 2 * i + 2, name)


def _check_number(value: str, line: int, name: str) -> None:
    try:
        float(value)
    except ValueError:
        shown = value.strip()[:30]
        if "," in shown:
            raise DrawingError(
                said('numbers are written with a decimal comma ("{0}", line {1})', shown, line),
                file=name,
                remedy="export again with a decimal point",
                code="BAD_NUMBER",
            ) from None
        raise DrawingError(
            said('"{0}" in line {1} should be a number', shown, line),
            file=name,
            remedy="the file is damaged there: export the drawing again",
            code="BAD_NUMBER",
        ) from None


def cut_at_last_whole_entity(tags: RawTags) -> tuple[RawTags, str]:
    """Return the tags closed behind the last entity that is surely whole, and what was dropped.

    Which tags the lost part had cannot be known, so the last entity begun goes with it; a
    polyline goes with all its vertices, a block that was not ended goes whole.
    """
    sections = tags.sections()
    if not sections:
        return RawTags([0], ["EOF"], [0]), "everything"
    section, begin, end = sections[-1]
    if tags.starts and end < len(tags.starts) and tags.values[tags.starts[end]].strip() == "ENDSEC":
        keep = tags.starts[end] + 1  # between sections: only the end mark is missing
        lost = "the end mark"
        closing = [(0, "EOF")]
    else:
        k = end - 1
        word = tags.values[tags.starts[k]].strip() if k > begin else ""
        if section == "BLOCKS":
            while k > begin + 1 and tags.values[tags.starts[k]].strip() != "BLOCK":
                k -= 1
            word = "BLOCK"
        elif word in ("VERTEX", "SEQEND", "ATTRIB"):
            while k > begin + 1 and tags.values[tags.starts[k]].strip() not in _WITH_PARTS:
                k -= 1
            word = tags.values[tags.starts[k]].strip()
        keep = tags.starts[k] if k > begin else tags.starts[begin] + 2
        lost = f"a {word} that was not complete" if word else f"the section {section}"
        closing = [(0, "ENDSEC"), (0, "EOF")]
        if section not in ("HEADER", "TABLES", "BLOCKS", "ENTITIES"):
            keep = tags.starts[begin]
            lost = f"the section {section}"
            closing = [(0, "EOF")]
    codes = tags.codes[:keep] + [code for code, _ in closing]
    values = tags.values[:keep] + [value for _, value in closing]
    return RawTags(codes, values, [i for i, code in enumerate(codes) if code == 0]), lost


def without_markers(tags: RawTags) -> list[int]:
    """Return the places of entities that lack the class marker their version asks for.

    Readers take such an entity for one without data: its shape would be lost or all zero.
    """
    version = tags.version
    if version and version < "AC1012":
        return []
    missing: list[int] = []
    for section, begin, end in tags.sections():
        if section not in ("ENTITIES", "BLOCKS"):
            continue
        for k in range(begin + 1, end):
            at = tags.starts[k]
            word = tags.values[at].strip()
            if word not in MARKERS or not version:
                continue
            stop = tags.starts[k + 1] if k + 1 < len(tags.starts) else len(tags.codes)
            named = any(
                tags.codes[i] == 100 and tags.values[i].strip() in MARKERS[word] for i in range(at + 1, stop)
            )
            if not named:
                missing.append(at)
    return missing


def _marker(word: str, tags: RawTags, at: int) -> str:
    """The class of an entity; a polyline in space has another one than a flat one."""
    if word == "POLYLINE":
        while at < len(tags.codes) and tags.codes[at] != 0:
            if tags.codes[at] == 70 and tags.values[at].strip().isdigit() and int(tags.values[at]) & 8:
                return "AcDb3dPolyline"
            at += 1
    return MARKERS[word][0]


def with_true_version(tags: RawTags) -> RawTags | None:
    """Return the tags under a version that knows their entities, None where theirs does.

    A file without a version counts as R12 to a reader, which then skips the data of all
    entities that came later - the flag that closes an outline among them.
    """
    if tags.version >= "AC1012":
        return None
    if not set(tags.entity_counts()) & {"LWPOLYLINE", "SPLINE", "ELLIPSE", "MTEXT", "HATCH"}:
        return None
    codes, values = list(tags.codes), list(tags.values)
    if tags.version:
        at = next(i for i in range(len(codes)) if codes[i] == 9 and values[i].strip() == "$ACADVER")
        values[at + 1] = "AC1015"
    else:
        sections = tags.sections()
        if sections and sections[0][0] == "HEADER":
            at = tags.starts[sections[0][1]] + 2
            head = [(9, "$ACADVER"), (1, "AC1015")]
        else:
            at = 0
            head = [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1015"), (0, "ENDSEC")]
        codes[at:at] = [code for code, _ in head]
        values[at:at] = [value for _, value in head]
    return RawTags(codes, values, [i for i, code in enumerate(codes) if code == 0])


def with_markers(tags: RawTags, places: list[int]) -> RawTags:
    """Return the tags with the class marker put in where it is missing."""
    codes: list[int] = []
    values: list[str] = []
    begin = 0
    for at in places:
        codes += tags.codes[begin : at + 1]
        values += tags.values[begin : at + 1]
        word = tags.values[at].strip()
        i = at + 1
        common: list[tuple[int, str]] = []
        while i < len(tags.codes) and tags.codes[i] in _COMMON_CODES:
            if tags.codes[i] != 100:
                common.append((tags.codes[i], tags.values[i]))
            i += 1
        ids = [pair for pair in common if pair[0] in (5, 102, 330, 360)]
        rest = [pair for pair in common if pair[0] not in (5, 102, 330, 360)]
        pairs = [*ids, (100, "AcDbEntity"), *rest]
        if word == "ARC":  # the one entity whose data stand in two classes
            pairs.append((100, "AcDbCircle"))
            while i < len(tags.codes) and tags.codes[i] not in (0, 50, 51):
                pairs.append((tags.codes[i], tags.values[i]))
                i += 1
        pairs.append((100, _marker(word, tags, i)))
        codes += [code for code, _ in pairs]
        values += [value for _, value in pairs]
        begin = i
    codes += tags.codes[begin:]
    values += tags.values[begin:]
    return RawTags(codes, values, [i for i, code in enumerate(codes) if code == 0])


def zero_scaled(tags: RawTags) -> set[str]:
    """Return the handles of INSERTs whose x or y scale is written as 0.

    Readers replace such a scale by 1 and would place a block that cannot be seen.
    """
    handles: set[str] = set()
    for k, at in enumerate(tags.starts):
        if tags.values[at].strip() != "INSERT":
            continue
        stop = tags.starts[k + 1] if k + 1 < len(tags.starts) else len(tags.codes)
        own = list(zip(tags.codes[at:stop], tags.values[at:stop], strict=True))
        if any(code in (41, 42) and float(value) == 0.0 for code, value in own):
            handles.update(value.strip().upper() for code, value in own if code == 5)
    return handles
