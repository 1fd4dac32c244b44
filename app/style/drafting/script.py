"""A list of edits, as a file or the command line gives them, carried out one after the other.

docs/edit.md describes each. An edit is an object with ``do`` (which edit) and ``piece``; a field that the
edit does not know is an error, so that a misspelt one is never passed over in silence.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from app.style import edits
from app.style.drafting import draw, where
from app.style.drafting.edges import break_at_corners, edges_of_kind, set_taper
from app.style.edits import EdgeName, EditError
from app.style.model import Style
from app.style.saved.drawn import (
    AreaData,
    BesideData,
    CourseData,
    HoleDrawn,
    InFrameData,
    MarkDrawn,
    NotchDrawn,
    PlaceData,
    ReliefDrawn,
    SlitDrawn,
    WordDrawn,
)
from geometry.defaults import LETTERS_MM
from geometry.edge_kinds import EdgeKind
from geometry.errors import DeskError
from geometry.said import said

GIVEN = object()


@dataclass
class EditFields:
    """One edit of a list, its fields taken out one by one."""

    style: Style
    number: int
    fields: dict[str, Any]

    def wrong(self, what: str, remedy: str) -> EditError:
        """Return the error that says which edit is wrong."""
        return EditError(said("edit {0}: {1}", self.number, what), remedy=remedy)

    def take(self, name: str, default: Any = GIVEN) -> Any:
        """Take a field; raises EditError when it is missing and has no default."""
        if name in self.fields:
            return self.fields.pop(name)
        if default is GIVEN:
            raise self.wrong(f"{name} is missing", f'give "{name}"; docs/edit.md shows each edit')
        return default

    def number_of(self, name: str, default: Any = GIVEN) -> float:
        """Take a finite number."""
        value = self.take(name, default)
        if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < 1e7:
            raise self.wrong(f"{name} is not a number ({value!r})", "give millimetres or degrees")
        return float(value)

    def point(self, name: str) -> tuple[float, float]:
        """Take a point [x, y] of the base drawing's frame."""
        return self.as_point(self.take(name), name)

    def as_point(self, value: Any, name: str) -> tuple[float, float]:
        """Return a point."""
        pair = isinstance(value, list | tuple) and len(value) == 2
        if not pair or any(isinstance(v, bool) or not isinstance(v, int | float) for v in value):
            raise self.wrong(f"{name} is not a point ({value!r})", "write it [x, y] in mm")
        return float(value[0]), float(value[1])

    @property
    def piece(self) -> str:
        """The piece named; raises EditError when the style does not have it."""
        name = self.fields.get("piece")
        if not isinstance(name, str):
            raise self.wrong("piece is missing", 'give "piece"')
        return where.piece_of(self.style, name).name

    @property
    def layer(self) -> int:
        """The layer named, counted from 1 in a list of edits, from 0 here."""
        return int(self.number_of("layer", 1)) - 1

    def edge(self, name: str = "edge") -> EdgeName:
        """Take an edge: its start vertex, [ring, start], or its kind where one edge has that."""
        return self.as_edge(self.take(name), name)

    def as_edge(self, value: Any, name: str = "edge") -> EdgeName:
        """Return the edge that a value names."""
        if isinstance(value, str):
            found = sorted(edges_of_kind(self.style, self.piece, self.kind(value)))
            if len(found) != 1:
                raise self.wrong(
                    f"{self.piece} has {len(found)} edges of kind {value}",
                    "name the edge by the vertex that it starts at",
                )
            return found[0]
        if isinstance(value, int) and not isinstance(value, bool):
            return 0, value
        if isinstance(value, list | tuple) and len(value) == 2 and all(isinstance(v, int) for v in value):
            return int(value[0]), int(value[1])
        raise self.wrong(
            f"{name} names no edge ({value!r})", "give its start vertex, [ring, start] or its kind"
        )

    def kind(self, value: Any) -> EdgeKind:
        """Return an edge kind."""
        try:
            return EdgeKind(value)
        except ValueError:
            kinds = ", ".join(kind.value for kind in EdgeKind)
            raise self.wrong(f"there is no edge kind {value}", f"kinds are {kinds}") from None

    def edges(self) -> list[EdgeName]:
        """Take ``edge``, ``edges``, or all of ``of_kind``."""
        if "of_kind" in self.fields:
            return sorted(edges_of_kind(self.style, self.piece, self.kind(self.take("of_kind"))))
        if "edges" in self.fields:
            return [self.as_edge(value) for value in self.take("edges")]
        return [self.edge()]

    def place(self, value: Any, name: str) -> PlaceData:
        """Return a place: [x, y] in the open, or {"edge", "share" or "at_mm", "inward_mm"}."""
        if not isinstance(value, Mapping):
            return where.in_frame(self.as_point(value, name))
        inner = EditFields(self.style, self.number, {"piece": self.piece, **value})
        edge = inner.edge()
        if "at_mm" in inner.fields:
            share = where.share_at(self.style, self.piece, edge, inner.number_of("at_mm"))
        else:
            share = inner.number_of("share", 0.5)
        inward = inner.number_of("inward_mm", 0.0)
        inner.done({"piece"})
        if not 0.0 <= share <= 1.0:
            raise self.wrong(f"a share of {share:g}", "give 0 (start of the edge) to 1 (its end)")
        return where.at_edge(self.style, self.piece, edge, share, inward)

    def shares(self) -> tuple[float, float]:
        """Take from where to where along an edge."""
        return self.number_of("from_share", 0.0), self.number_of("to_share", 1.0)

    def course(self, name: str = "line", **how: object) -> CourseData:
        """Take a line through places."""
        value = self.take(name)
        if not isinstance(value, list):
            raise self.wrong(f"{name} is not a list of points", "write it [[x, y], [x, y], ...]")
        places = [self.place(part, name) for part in value]
        return where.course(places, smooth=bool(self.take("smooth", False)), **how)

    def line(self) -> CourseData | BesideData:
        """Take ``line`` or ``beside``."""
        if "beside" not in self.fields:
            return self.course()
        inner = EditFields(self.style, self.number, {"piece": self.piece, **dict(self.take("beside"))})
        edge, inward = inner.edge(), inner.number_of("inward_mm")
        net = inner.take("from", "cut") == "net"
        made = where.beside(self.style, self.piece, edge, inward, from_net=net, shares=inner.shares())
        inner.done({"piece"})
        return made

    def done(self, known: set[str] = frozenset({"do", "piece"})) -> None:  # type: ignore[assignment]
        """Raise EditError when a field is left that nobody knows."""
        left = [name for name in self.fields if name not in known]
        if left:
            raise self.wrong(f"the field {left[0]} is not known here", "check the spelling in docs/edit.md")


def _cut(a: EditFields) -> Style:
    beside = a.fields.get("beside")
    line, keep = a.line(), a.take("keep", "inner")
    if isinstance(keep, str):
        if keep not in ("inner", "outer") or not isinstance(line, BesideData):
            raise a.wrong(f"keep is {keep!r}", "give a point [x, y] on the side that stays")
        edge = a.as_edge(dict(beside or {}).get("edge"))
        side = where.inner_side(a.style, a.piece, edge, line, inner=keep == "inner")
    else:
        side = a.place(keep, "keep")
    return draw.add_cut(a.style, a.piece, a.layer, line, side)


def _region(a: EditFields) -> Style:
    keep = a.take("keep", "inside")
    if keep not in ("inside", "outside"):
        raise a.wrong(f"keep is {keep!r}", 'give "inside" or "outside"')
    area: AreaData
    if "band" in a.fields:
        inner = EditFields(a.style, a.number, {"piece": a.piece, **dict(a.take("band"))})
        edge, width = inner.edge(), inner.number_of("width_mm")
        near = inner.number_of("near_mm", 0.0)
        area = where.band(a.style, a.piece, edge, width + near, near_mm=near, shares=inner.shares())
        inner.done({"piece"})
    else:
        rounded = a.number_of("rounded_mm", 0.0)
        area = a.course("polygon", closed=True, rounded_mm=rounded)
    style, layer = a.style, a.fields.get("layer", 1)
    if layer == "new":
        a.take("layer")
        style = draw.add_layer(style, a.piece, str(a.take("cloth", "")))
        return draw.add_region(
            style, a.piece, len(style.piece(a.piece).layers) - 1, area, inside=keep == "inside"
        )
    return draw.add_region(style, a.piece, a.layer, area, inside=keep == "inside")


def _split(a: EditFields) -> Style:
    names = a.take("names", ["", ""])
    if not isinstance(names, list) or len(names) != 2 or not all(isinstance(n, str) for n in names):
        raise a.wrong("names are two words", 'write "names": ["left of the line", "right of it"]')
    return draw.add_split(
        a.style,
        a.piece,
        a.layer,
        a.line(),
        names=(names[0], names[1]),
        overlap_mm=a.number_of("overlap_mm", 0.0),
        notches=int(a.number_of("notches", 2)),
        part=str(a.take("part", "")),
    )


def _join(a: EditFields) -> Style:
    others = a.take("with")
    return draw.join(a.style, a.piece, [others] if isinstance(others, str) else list(others), a.layer)


def _change(a: EditFields) -> Style:
    points = [a.as_point(value, "line") for value in a.take("line")]
    smooth = bool(a.take("smooth", False))
    return draw.change_through(a.style, a.piece, a.layer, points, smooth=smooth)


def _detail(a: EditFields) -> Style:
    what = a.fields["do"]
    more = {name: a.take(name) for name in ("kind", "depth_mm", "width_mm", "on") if name in a.fields}
    match what:
        case "notch":
            spot = a.place(a.take("at"), "at")
            if isinstance(spot, InFrameData):  # a notch stands on the outline: the nearest edge takes it
                spot = where.beside_outline(a.style, a.piece, (spot.x_mm, spot.y_mm))
            on_it = spot.model_copy(update={"inward_mm": 0.0, "aside_mm": 0.0})
            return draw.add_detail(a.style, a.piece, NotchDrawn(what="notch", at=on_it, **more))
        case "relief":
            edge = a.edge()
            first, last = (where.at_edge(a.style, a.piece, edge, share) for share in a.shares())
            row = ReliefDrawn(what="relief", start=first, stop=last, pitch_mm=a.number_of("pitch_mm"), **more)
            return draw.add_detail(a.style, a.piece, row)
        case "slit":
            return draw.add_detail(a.style, a.piece, SlitDrawn(what="slit", line=a.course(), **more))
        case "mark":
            return draw.add_detail(a.style, a.piece, MarkDrawn(what="mark", line=a.course(), **more))
        case "drill":
            at = a.place(a.take("at"), "at")
            wide = a.number_of("diameter_mm", 0.0)
            return draw.add_detail(a.style, a.piece, HoleDrawn(what="drill", at=at, diameter_mm=wide, **more))
    at = a.place(a.take("at"), "at")
    word = WordDrawn(
        what="text",
        at=at,
        text=a.take("text"),
        height_mm=a.number_of("height_mm", LETTERS_MM.value),
        angle_deg=a.number_of("angle_deg", 0.0),
        **more,
    )
    return draw.add_detail(a.style, a.piece, word)


def _remove(a: EditFields) -> Style:
    what, number = a.take("what"), int(a.number_of("number", 1)) - 1
    if what == "detail":
        return draw.remove_detail(a.style, a.piece, number)
    if what == "layer":
        return draw.remove_layer(a.style, a.piece, number)
    if what == "join":
        return draw.unjoin(a.style, a.piece, a.layer)
    if what == "keep":
        return draw.remove_keep(a.style, a.piece, a.layer)
    kinds = {"cut": "cuts", "region": "cuts", "change": "changes", "split": "splits"}
    if what not in kinds:
        raise a.wrong(f"what is {what!r}", "name one of cut, keep, change, split, join, detail, layer")
    return draw.remove_drawn(a.style, a.piece, a.layer, kinds[what], number)  # type: ignore[arg-type]


def _setback(a: EditFields) -> Style:
    own = a.take("mm")
    value = None if own is None else EditFields(a.style, a.number, {"mm": own}).number_of("mm")
    return edits.set_setback(a.style, a.piece, a.edges(), value)


def _allowance(a: EditFields) -> Style:
    own = a.take("mm")
    value = None if own is None else EditFields(a.style, a.number, {"mm": own}).number_of("mm")
    return edits.set_allowance(a.style, a.piece, a.edges(), value)


DOES: dict[str, Callable[[EditFields], Style]] = {
    "cut": _cut,
    "region": _region,
    "split": _split,
    "join": _join,
    "change": _change,
    "smooth": lambda a: draw.smooth_stretch(a.style, a.piece, a.layer, a.point("from"), a.point("to")),
    "layer": lambda a: draw.add_layer(a.style, a.piece, str(a.take("cloth", ""))),
    "notch": _detail,
    "relief": _detail,
    "slit": _detail,
    "drill": _detail,
    "mark": _detail,
    "text": _detail,
    "taper": lambda a: set_taper(a.style, a.piece, a.edge(), a.number_of("from_mm"), a.number_of("to_mm")),
    "setback": _setback,
    "allowance": _allowance,
    "kind": lambda a: edits.set_edge_kind(a.style, a.piece, a.edges(), a.kind(a.take("kind"))),
    "break_corners": lambda a: break_at_corners(a.style, a.piece, a.number_of("corner_deg")),
    "remove": _remove,
}
"""Every edit by its name in a list."""


def carry_out(style: Style, asked: Sequence[Mapping[str, Any]]) -> tuple[Style, tuple[str, ...]]:
    """Return the style after all edits, and a line about each.

    Raises EditError (or an error of geometry) naming the first edit that cannot be done; nothing is changed.
    """
    lines = []
    for number, edit in enumerate(asked, start=1):
        if not isinstance(edit, Mapping):
            raise EditError(
                said("edit {0} is not an object", number), remedy='write {"do": ..., "piece": ...}'
            )
        what = edit.get("do")
        if what not in DOES:
            names = ", ".join(DOES)
            raise EditError(
                said("edit {0}: there is no edit {1}", number, f"{what!r}"),
                remedy=said("edits are {0}", names),
            )
        one = EditFields(style, number, dict(edit))
        name = one.piece
        try:
            style = DOES[what](one)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            place = ".".join(str(step) for step in first["loc"])
            raise one.wrong(f"{what} on {name}: {place}: {first['msg']}", "give another value") from None
        except DeskError as error:
            if error.message.startswith("edit "):
                raise
            raise EditError(
                said("edit {0}, {1} on {2}: {3}", number, what, name, error.message), remedy=error.remedy
            ) from None
        except (TypeError, ValueError):
            raise one.wrong(f"{what} on {name} cannot be read", "see docs/edit.md for its fields") from None
        one.done()
        lines.append(f"{number}. {what} on {name}")
    return style, tuple(lines)
