"""All that is drawn on a sheet, blocks counted out and placed, in drawing units."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from ezdxf.document import Drawing as DxfDocument
from ezdxf.entities import DXFEntity
from numpy.typing import NDArray

from geometry import tolerances
from geometry.dxf.file.text import clean
from geometry.dxf.lines.curves import BadEntity, Flat, Points, flatten
from geometry.dxf.lines.effort import spend
from geometry.errors import DrawingError
from geometry.findings import Finding, Severity
from geometry.said import said

CURVES = {"LINE", "CIRCLE", "ARC", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE", "HATCH"}
_WHY = {
    "3DFACE": "a face in space, no outline",
    "SOLID": "a filled area, no outline",
    "TRACE": "a filled area, no outline",
    "3DSOLID": "a body in space: draw its outline",
    "BODY": "a body in space: draw its outline",
    "REGION": "a region: explode it into lines before saving",
    "SURFACE": "a surface in space: draw its outline",
    "MESH": "a mesh in space: draw its outline",
    "DIMENSION": "a dimension, not part of a piece",
    "ARC_DIMENSION": "a dimension, not part of a piece",
    "LEADER": "a leader, not part of a piece",
    "MULTILEADER": "a leader, not part of a piece",
    "TOLERANCE": "an annotation, not part of a piece",
    "IMAGE": "a picture",
    "WIPEOUT": "a mask",
    "VIEWPORT": "a window of a sheet",
    "RAY": "an endless line",
    "XLINE": "an endless line",
    "MLINE": "a multiple line: explode it before saving",
    "HELIX": "a curve in space",
    "ATTDEF": "a place for a name, empty",
    "SHAPE": "a sign from a font",
    "ACAD_TABLE": "a table",
    "ACAD_PROXY_ENTITY": "made by a program that did not say what it is: explode it before saving",
}

Scope = tuple[int, ...]
"""Which placed block something stands in: serial numbers of the INSERTs on the way down."""


@dataclass(frozen=True, eq=False)
class Curve:
    """A drawn line as a polyline (n, 2)."""

    points: Points
    closed: bool
    layer: str
    kind: str
    scope: Scope = ()


@dataclass(frozen=True)
class DrawnPoint:
    """A POINT; ``depth`` is its z, ``width`` its thickness, ``angle_deg`` its own angle if any."""

    x: float
    y: float
    layer: str
    scope: Scope
    depth: float = 0.0
    width: float = 0.0
    angle_deg: float | None = None


@dataclass(frozen=True)
class DrawnText:
    """A text; ``anchors`` are places on it that may lie inside the piece it names."""

    text: str
    anchors: tuple[tuple[float, float], ...]
    height: float
    layer: str
    scope: Scope
    tag: str = ""


@dataclass
class DrawnSpace:
    """What one drawing space holds. ``blocks`` names the outermost block of each serial number."""

    curves: list[Curve] = field(default_factory=list)
    points: list[DrawnPoint] = field(default_factory=list)
    texts: list[DrawnText] = field(default_factory=list)
    blocks: dict[int, str] = field(default_factory=dict)
    left_out: Counter[tuple[str, str]] = field(default_factory=Counter)
    findings: list[Finding] = field(default_factory=list)
    hidden: Counter[str] = field(default_factory=Counter)


def count_expanded(document: DxfDocument, entities: Iterable[DXFEntity]) -> int:
    """Count what the entities become once every INSERT is followed, without following them.

    Memoised by block; a block that contains itself counts nothing more.
    """
    known: dict[str, int] = {}

    def of_block(name: str, above: frozenset[str]) -> int:
        key = name.lower()
        if key in above:
            return 0
        if key not in known:
            block = document.blocks.get(name)
            known[key] = 0 if block is None else of_entities(block, above | {key})
        return known[key]

    def of_entities(items: Iterable[DXFEntity], above: frozenset[str]) -> int:
        total = 0
        for entity in items:
            if entity.dxftype() == "INSERT":
                total += _copies(entity) * (1 + of_block(str(entity.dxf.get("name", "")), above))
            else:
                total += 1
        return total

    return of_entities(entities, frozenset())


def _copies(insert: DXFEntity) -> int:
    rows, columns = int(insert.dxf.row_count), int(insert.dxf.column_count)
    return max(rows, 1) * max(columns, 1)


class Collector:
    """Walks a space once, following INSERTs, into a DrawnSpace."""

    def __init__(
        self, document: DxfDocument, file: str, distance: float, zero_scaled: frozenset[str] = frozenset()
    ) -> None:
        self.document = document
        self.zero_scaled = zero_scaled
        self.file = file
        self.distance = distance
        self.sheet = DrawnSpace()
        self._flats: dict[tuple[int, float], list[Flat] | BadEntity] = {}
        self._serial = 0
        self._vertices = 0
        self._bad: Counter[tuple[str, str]] = Counter()
        self._tilted = 0
        self._wide = 0
        self._missing: Counter[str] = Counter()
        self._off = {layer.dxf.name.lower(): not layer.is_on() for layer in document.layers}
        self._frozen = {layer.dxf.name.lower(): layer.is_frozen() for layer in document.layers}

    def collect(self, entities: Iterable[DXFEntity]) -> DrawnSpace:
        """Return what is drawn; raises DrawingError when it expands beyond the limits."""
        entities = list(entities)
        total = count_expanded(self.document, entities)
        if total > tolerances.MAX_ENTITIES:
            raise DrawingError(
                said(
                    "this drawing expands to {0} entities, the limit is {1}", total, tolerances.MAX_ENTITIES
                ),
                file=self.file,
                remedy="remove the repeated blocks, or save the pieces alone",
                code="TOO_MANY_ENTITIES",
            )
        self._walk(entities, np.eye(4), None, (), ())
        self._report()
        return self.sheet

    def _walk(
        self,
        entities: Iterable[DXFEntity],
        matrix: NDArray[np.float64],
        parent_layer: str | None,
        scope: Scope,
        above: tuple[str, ...],
    ) -> None:
        for entity in entities:
            kind = entity.dxftype()
            spend(60.0)
            if not (entity.dxf.is_supported("layer") and entity.dxf.is_supported("invisible")):
                self._bad[clean(kind)[:20] or "entity without a kind", "a kind that no DXF knows"] += 1
                continue
            layer = clean(str(entity.dxf.get("layer", "0")))
            if layer == "0" and parent_layer is not None:
                layer = parent_layer
            key = layer.lower()
            if self._frozen.get(key) or entity.dxf.get("invisible", 0):
                self.sheet.hidden[layer] += 1
            elif kind == "INSERT":
                self._insert(entity, matrix, layer, scope, above)
            elif self._off.get(key):
                self.sheet.hidden[layer] += 1
            elif kind in CURVES:
                self._curve(entity, matrix, layer, scope)
            elif kind == "POINT":
                self._point(entity, matrix, layer, scope)
            elif kind in ("TEXT", "MTEXT"):
                self._text(entity, matrix, layer, scope)
            elif kind != "ATTDEF":
                self.sheet.left_out[clean(kind), _WHY.get(kind, "a kind of entity that has no outline")] += 1

    def _insert(
        self,
        entity: DXFEntity,
        matrix: NDArray[np.float64],
        layer: str,
        scope: Scope,
        above: tuple[str, ...],
    ) -> None:
        name = str(entity.dxf.get("name", ""))
        block = self.document.blocks.get(name)
        shown = clean(name)
        if block is None or block.block is None:
            self._missing[f"block {shown} is not in the file"] += 1
            return
        if int(block.block.dxf.flags) & 4 and not len(block):
            self._missing[f"{shown} stands in another file (external reference)"] += 1
            return
        if name.lower() in above:
            self._missing[f"block {shown} contains itself"] += 1
            return
        hidden = str(entity.dxf.handle).upper() in self.zero_scaled
        attribs = list(entity.attribs)  # type: ignore[attr-defined]
        copies: list[Any] = [entity]
        if _copies(entity) > 1:
            entity.attribs.clear()  # type: ignore[attr-defined]  # a damaged one cannot be copied
            copies = list(entity.multi_insert())  # type: ignore[attr-defined]
            entity.attribs.extend(attribs)  # type: ignore[attr-defined]
        for copy in copies:
            if not copy.dxf.xscale or not copy.dxf.yscale or hidden:
                self._bad["INSERT", f"block {shown} is placed with scale 0"] += 1
                continue
            own = np.array(list(copy.matrix44()), dtype=np.float64).reshape(4, 4) @ matrix
            if not np.isfinite(own).all() or np.abs(own).max() > tolerances.FAR_AWAY:
                self._bad["INSERT", "a coordinate is not a finite number"] += 1
                continue
            self._serial += 1
            inner = (*scope, self._serial)
            self.sheet.blocks[self._serial] = shown
            parent = None if layer == "0" else layer
            self._walk(block, own, parent, inner, (*above, name.lower()))
        for attrib in attribs:
            self._text(attrib, matrix, layer, (*scope, self._serial))

    def _curve(self, entity: DXFEntity, matrix: NDArray[np.float64], layer: str, scope: Scope) -> None:
        kind = entity.dxftype()
        scale = float(np.linalg.norm(matrix[:3, :3], axis=1).max())
        fine = self.distance / 2.0 ** np.ceil(np.log2(max(scale, 1e-9)))
        key = (id(entity), fine)
        if key not in self._flats:
            try:
                self._flats[key] = flatten(entity, fine)
            except BadEntity as error:
                self._flats[key] = error
        flats = self._flats[key]
        if isinstance(flats, BadEntity):
            self._bad[kind, str(flats)] += 1
            return
        if kind == "HATCH":
            self._serial += 1
            scope = (*scope, self._serial)
        for flat in flats:
            placed = flat.points
            if scope:
                placed = placed @ matrix[:3, :3] + matrix[3, :3]
                if not np.isfinite(placed).all() or np.abs(placed).max() > tolerances.FAR_AWAY:
                    self._bad[kind, "a coordinate is not a finite number"] += 1
                    continue
            if placed[:, 2].any() and np.ptp(placed[:, 2]) > self.distance:
                self._tilted += 1
            self._vertices += len(placed)
            spend(0.3 * len(placed))
            if self._vertices > tolerances.MAX_VERTICES:
                raise DrawingError(
                    said(
                        "this drawing has more than {0} vertices",
                        f"{tolerances.MAX_VERTICES:,}".replace(",", " "),
                    ),
                    file=self.file,
                    remedy="ask for a coarser chord, or save the pieces alone",
                    code="TOO_MANY_ENTITIES",
                )
            self.sheet.curves.append(Curve(placed[:, :2], flat.closed, layer, kind, scope))
        width_name = {"LWPOLYLINE": "const_width", "POLYLINE": "default_start_width"}.get(kind)
        self._wide += bool(width_name and entity.dxf.get(width_name, 0.0))

    def _point(self, entity: DXFEntity, matrix: NDArray[np.float64], layer: str, scope: Scope) -> None:
        local = np.array(tuple(entity.dxf.location), dtype=np.float64)
        place = local @ matrix[:3, :3] + matrix[3, :3]
        if not np.isfinite(place).all() or np.abs(place).max() > tolerances.FAR_AWAY:
            self._bad["POINT", "a coordinate is not a finite number"] += 1
            return
        scale = float(np.linalg.norm(matrix[0, :3]))
        angle = None
        if entity.dxf.hasattr("angle"):
            turn = np.radians(float(entity.dxf.angle))
            way = np.array([np.cos(turn), np.sin(turn), 0.0]) @ matrix[:3, :3]
            angle = float(np.degrees(np.arctan2(way[1], way[0])))
        width = abs(float(entity.dxf.get("thickness", 0.0))) * scale
        self.sheet.points.append(
            DrawnPoint(
                float(place[0]), float(place[1]), layer, scope, abs(float(local[2])) * scale, width, angle
            )
        )

    def _text(self, entity: DXFEntity, matrix: NDArray[np.float64], layer: str, scope: Scope) -> None:
        try:
            text, anchors, height = _read_text(entity)
        except Exception as error:  # a damaged text must not cost the import
            self._bad[entity.dxftype(), str(error)[:100] or type(error).__name__] += 1
            return
        if not text:
            return
        places = np.array(anchors) @ matrix[:3, :3] + matrix[3, :3]
        if not np.isfinite(places).all():
            self._bad[entity.dxftype(), "a coordinate is not a finite number"] += 1
            return
        tag = clean(str(entity.dxf.get("tag", ""))) if entity.dxftype() == "ATTRIB" else ""
        height *= float(np.linalg.norm(matrix[1, :3]))
        spots = tuple((float(x), float(y)) for x, y, _ in places)
        self.sheet.texts.append(DrawnText(text, spots, height, layer, scope, tag))

    def _report(self) -> None:
        for (kind, why), count in sorted(self._bad.items()):
            finite = "finite" in why
            shapeless = "no length" in why or "radius is" in why or "points a line needs" in why
            self.sheet.left_out[kind, why] += count
            self.sheet.findings.append(
                Finding(
                    code="BAD_COORDINATE" if finite else "DEGENERATE" if shapeless else "BAD_ENTITY",
                    severity=Severity.NOTE if shapeless else Severity.WARNING,
                    message=said("{0} {1}: {2}", count, kind, why),
                    done="left out",
                    advice="" if shapeless else "check whether a piece lacks a line; redraw it if so",
                )
            )
        for why, count in sorted(self._missing.items()):
            self.sheet.left_out["INSERT", why] += count
            self.sheet.findings.append(
                Finding(
                    code="MISSING_BLOCK",
                    severity=Severity.WARNING,
                    message=said("{0} ({1} placed)", why, count),
                    done="left out",
                    advice="bind external references, or explode the blocks, before saving",
                )
            )
        if self._tilted:
            self.sheet.findings.append(
                Finding(
                    code="NOT_FLAT",
                    severity=Severity.WARNING,
                    message=said("{0} curves do not lie flat in the drawing plane", self._tilted),
                    done="seen from above",
                    advice="a tilted piece comes out too small: lay it flat in the drawing",
                )
            )
        if self._wide:
            self.sheet.findings.append(
                Finding(
                    code="WIDE_LINE",
                    severity=Severity.NOTE,
                    message=said("{0} lines are drawn with a width", self._wide),
                    done="their middle is taken as the outline",
                )
            )
        for layer, count in sorted(self.sheet.hidden.items()):
            self.sheet.left_out[f"layer {layer}", "switched off, frozen or hidden"] += count
        if self.sheet.hidden:
            words = ", ".join(f"{layer} ({count})" for layer, count in sorted(self.sheet.hidden.items()))
            self.sheet.findings.append(
                Finding(
                    code="HIDDEN_LAYER",
                    severity=Severity.NOTE,
                    message=said(
                        "entities on layers that are off or frozen, or hidden themselves: {0}", words
                    ),
                    done="left out",
                    advice="switch the layer on in the drawing if it holds pieces",
                )
            )


def _read_text(entity: DXFEntity) -> tuple[str, list[tuple[float, float, float]], float]:
    """Return a text, its anchor and its rough middle (in its own space), and its height."""
    if entity.dxftype() == "MTEXT":
        lines = [clean(line) for line in entity.plain_text(split=True)]  # type: ignore[attr-defined]
        height = float(entity.dxf.char_height)
        x, y, z = tuple(entity.dxf.insert)
        wide = 0.4 * height * max(map(len, lines), default=0)
        across = (int(entity.dxf.attachment_point) - 1) % 3
        down = (int(entity.dxf.attachment_point) - 1) // 3
        middle = (x + (wide, 0.0, -wide)[across], y + (-0.5, 0.0, 0.5)[down] * height * len(lines), z)
        return " ".join(line for line in lines if line), [(x, y, z), middle], height
    text = clean(entity.plain_text())  # type: ignore[attr-defined]
    height = float(entity.dxf.height)
    left = not int(entity.dxf.get("halign", 0)) and not int(entity.dxf.get("valign", 0))
    spot = entity.dxf.insert if left or not entity.dxf.hasattr("align_point") else entity.dxf.align_point
    ocs = entity.ocs()  # type: ignore[attr-defined]
    turn = np.radians(float(entity.dxf.get("rotation", 0.0)))
    wide = 0.4 * height * len(text) if left else 0.0
    middle = (spot[0] + wide * np.cos(turn), spot[1] + wide * np.sin(turn), spot[2])
    anchors = [tuple(ocs.to_wcs(spot)), tuple(ocs.to_wcs(middle))]
    return text, [(float(x), float(y), float(z)) for x, y, z in anchors], height
