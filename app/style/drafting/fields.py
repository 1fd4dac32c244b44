"""The fields of one edit of a list, each taken and checked; what cannot be names edit, piece and remedy."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.style.drafting import where
from app.style.drafting.edges import edges_of_kind
from app.style.edits import EdgeName, EditError
from app.style.model import Style
from app.style.saved.drawn import BesideData, CourseData, PlaceData
from geometry.edge_kinds import EdgeKind
from geometry.said import said

GIVEN = object()

MOST_SHOWN = 60
"""Characters of a value that an error repeats: the sentence stays readable."""


def brief(value: object) -> str:
    """Return a value as an error names it, cut short."""
    text = value if isinstance(value, str) and value.strip() else repr(value)
    return text if len(text) <= MOST_SHOWN else f"{text[:MOST_SHOWN]}..."


@dataclass
class EditFields:
    """One edit of a list, its fields taken out one by one."""

    style: Style
    number: int
    fields: dict[str, Any]
    do: str = ""

    def wrong(self, what: str, remedy: str) -> EditError:
        """Return the error that says which edit is wrong, and on which piece."""
        do, piece = self.fields.get("do", self.do), self.fields.get("piece")
        if not isinstance(piece, str):
            return EditError(said("edit {0}, {1}: {2}", self.number, do, what), remedy=remedy)
        return EditError(
            said("edit {0}, {1} on {2}: {3}", self.number, do, brief(piece), what), remedy=remedy
        )

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
            raise self.wrong(f"{name} is not a number ({brief(value)})", "give millimetres or degrees")
        return float(value)

    def count_of(self, name: str, default: int) -> int:
        """Take a whole number."""
        value = self.number_of(name, default)
        if not value.is_integer():
            raise self.wrong(f"{name} is not a whole number ({value:g})", "count in whole numbers")
        return int(value)

    def yes(self, name: str) -> bool:
        """Take true or false; false where it is not given."""
        value = self.take(name, False)
        if not isinstance(value, bool):
            raise self.wrong(f"{name} is {brief(value)}", "give true or false")
        return value

    def inside(self, name: str) -> EditFields:
        """Take a field that is an object, as fields of this edit."""
        value = self.take(name)
        if not isinstance(value, Mapping):
            raise self.wrong(
                f"{name} is not an object ({brief(value)})", f'write "{name}": {{...}} as in docs/edit.md'
            )
        return self.within(value)

    def within(self, value: Mapping[str, Any]) -> EditFields:
        """Return the fields of an object inside this edit."""
        own = {"do": self.fields.get("do", self.do), "piece": self.piece}
        return EditFields(self.style, self.number, {**value, **own})

    def point(self, name: str) -> tuple[float, float]:
        """Take a point [x, y] of the base drawing's frame."""
        return self.as_point(self.take(name), name)

    def as_point(self, value: Any, name: str) -> tuple[float, float]:
        """Return a point."""
        pair = isinstance(value, list | tuple) and len(value) == 2
        if not pair or any(isinstance(v, bool) or not isinstance(v, int | float) for v in value):
            raise self.wrong(f"{name} is not a point ({brief(value)})", "write it [x, y] in mm")
        return float(value[0]), float(value[1])

    @property
    def piece(self) -> str:
        """The piece named; raises EditError when the style does not have it."""
        name = self.fields.get("piece")
        if not isinstance(name, str):
            raise self.wrong("piece is missing", 'give "piece"')
        if all(piece.name != name for piece in self.style.pieces):
            names = ", ".join(piece.name for piece in self.style.pieces)
            raise self.wrong("there is no such piece", f"its pieces are {names}")
        return name

    @property
    def layer(self) -> int:
        """The layer named, counted from 1 in a list of edits, from 0 here."""
        return self.count_of("layer", 1) - 1

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
            f"{name} names no edge ({brief(value)})", "give its start vertex, [ring, start] or its kind"
        )

    def kind(self, value: Any) -> EdgeKind:
        """Return an edge kind."""
        try:
            return EdgeKind(value)
        except ValueError:
            kinds = ", ".join(kind.value for kind in EdgeKind)
            raise self.wrong(f"there is no edge kind {brief(value)}", f"kinds are {kinds}") from None

    def edges(self) -> list[EdgeName]:
        """Take ``edge``, ``edges``, or all of ``of_kind``."""
        if "of_kind" in self.fields:
            return sorted(edges_of_kind(self.style, self.piece, self.kind(self.take("of_kind"))))
        if "edges" in self.fields:
            named = self.take("edges")
            if not isinstance(named, list) or not named:
                raise self.wrong(f"edges is not a list of edges ({brief(named)})", 'write "edges": [0, 54]')
            return [self.as_edge(value) for value in named]
        return [self.edge()]

    def place(self, value: Any, name: str) -> PlaceData:
        """Return a place: [x, y] in the open, or {"edge", "share" or "at_mm", "inward_mm"}."""
        if not isinstance(value, Mapping):
            return where.in_frame(self.as_point(value, name))
        inner = self.within(value)
        edge = inner.edge()
        if "at_mm" in inner.fields:
            share = where.share_at(self.style, self.piece, edge, inner.number_of("at_mm"))
        else:
            share = inner.number_of("share", 0.5)
        inward = inner.number_of("inward_mm", 0.0)
        inner.done()
        if not 0.0 <= share <= 1.0:
            raise self.wrong(f"a share of {share:g}", "give 0 (start of the edge) to 1 (its end)")
        return where.at_edge(self.style, self.piece, edge, share, inward)

    def shares(self) -> tuple[float, float]:
        """Take from where to where along an edge."""
        return self.number_of("from_share", 0.0), self.number_of("to_share", 1.0)

    def course(self, name: str = "line", fewest: int = 2, **how: object) -> CourseData:
        """Take a line through places."""
        value = self.take(name)
        if not isinstance(value, list):
            raise self.wrong(f"{name} is not a list of points", "write it [[x, y], [x, y], ...]")
        places = [self.place(part, name) for part in value]
        if len(places) < fewest:
            raise self.wrong(f"{name} has {len(places)} points", f"give {fewest} or more")
        return where.course(places, smooth=self.yes("smooth"), **how)

    def line(self) -> CourseData | BesideData:
        """Take ``line`` or ``beside``."""
        if "beside" not in self.fields:
            return self.course()
        inner = self.inside("beside")
        edge, inward, since = inner.edge(), inner.number_of("inward_mm"), inner.take("from", "cut")
        if since not in ("cut", "net"):
            raise self.wrong(f"from is {brief(since)}", 'give "cut" or "net"')
        net, shares = since == "net", inner.shares()
        made = where.beside(self.style, self.piece, edge, inward, from_net=net, shares=shares)
        inner.done()
        return made

    def done(self, known: set[str] = frozenset({"do", "piece"})) -> None:  # type: ignore[assignment]
        """Raise EditError when a field is left that nobody knows."""
        left = [name for name in self.fields if name not in known]
        if left:
            raise self.wrong(f"the field {left[0]} is not known here", "check the spelling in docs/edit.md")
