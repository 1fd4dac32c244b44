"""Clusters: pieces that fit each other well, searched as one and taken apart again.

A large piece with a twin, half turned or not, and small pieces in what the two leave open. Two whole-cuts
with a tongue in each pocket fill 89 % of their hull where one alone fills 80: who lays them as one has half
the pieces to lay, and denser ones (docs/benchmarks.md). Clusters that fill their hull little better than
their pieces do lose more than they save, and are not made. Clustering by pairs: Elkeran 2013, from memory;
what is joined to what, and when, is ours.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import shapely

from geometry.outline import Outline, rotation
from nesting.dies.die import Die, dies_of
from nesting.dies.family import at_rank, families_of
from nesting.free.fitting import Fitted, Fitting, Pose, cells_mm
from nesting.items import Item
from nesting.lay import Placement
from nesting.problem import LayProblem

FROM_PIECES = 60
"""Fewer pieces are searched one by one: there the search has time for each."""

FULLER, FULL = 0.04, 0.80
"""A cluster fills its hull better than its piece does by at least so much, and so far at least (measured:
without judgement 96 pieces of the derby came out 2 points worse, toe caps and counters 1.5 to 3)."""

NEARLY = 0.005
"""Sizes that fill their hull less than the pattern by no more than this are set together well enough."""

ACTUAL = 0.02
"""What is made of sizes that differ may fall behind what was found of the middle one by so much."""

FILLED = 0.012
"""A small piece joins a cluster where it fills the hull by at least so much more, ..."""

MOST_FILLING = 3
"""... up to so many of them, ..."""

SMALL = 0.5
"""... each of at most this share of the large piece."""

SEARCHED_AREA = 0.5
"""For a search no further family is clustered once clusters hold this share of the area: it needs pieces that
it can move (measured at 28 s, mean of two seeds: 76.75 % with 0.5, 76.25 with 0.65 on 96 pieces; 76.4 and
75.4 on 288). A bottom-left layout is the denser the more is clustered."""

JOINING_TRIES = 5
"""How often the radius is doubled that closes the gaps between the pieces of a cluster."""


@dataclass(frozen=True)
class Clustered:
    """A problem some of whose items are clusters: ``members`` of each, where they lie about its origin."""

    problem: LayProblem
    members: dict[str, tuple[Placement, ...]]

    def apart(self, placements: Iterable[Placement]) -> tuple[Placement, ...]:
        """Return a layout of ``problem`` with its clusters taken apart."""
        done: list[Placement] = []
        for whole in placements:
            if whole.item_id not in self.members:
                done.append(whole)
                continue
            matrix = rotation(whole.turn_deg)
            for at in self.members[whole.item_id]:
                dx, dy = matrix @ (at.x_mm, at.y_mm)
                turn = (at.turn_deg + whole.turn_deg) % 360.0
                done.append(Placement(at.item_id, turn, whole.x_mm + float(dx), whole.y_mm + float(dy)))
        return tuple(done)


@dataclass(frozen=True)
class Clusters:
    """A problem in clusters: with all that fit, for a layout, and with few enough that a search can move."""

    laid: Clustered
    searched: Clustered


def clustered(problem: LayProblem) -> Clusters | None:
    """Return the problem with what fits well in clusters; None where nothing does.

    Pinned pieces stay out of it. Deterministic.
    """
    free = any(item.turns_deg is None for item in problem.items if item.demand)
    if free or problem.pieces - len(problem.pinned) < FROM_PIECES:
        return None
    dies = dies_of(problem)
    families = _Choosing(dies, problem.gap_mm).chosen()
    few: list[Fitted] = []
    for family in families:
        if (
            sum(dies[p.die].area_mm2 for each in few for p in each.poses)
            < SEARCHED_AREA * problem.net_area_mm2
        ):
            few += family
    laid = _dealt(problem, dies, [each for family in families for each in family])
    searched = _dealt(problem, dies, few)
    return None if laid is None or searched is None else Clusters(laid, searched)


_fittings: deque[tuple[object, tuple[Fitting, Fitting]]] = deque(maxlen=2)


def _fittings_of(dies: Sequence[Die], gap_mm: float) -> tuple[Fitting, Fitting]:
    """Return what sets these dies together, roughly and finely: that of before where a problem's sections ask
    for the same dies again."""
    key = gap_mm, tuple(ring.tobytes() for die in dies for ring in die.rings_mm)
    for known, pair in _fittings:
        if known == key:
            return pair
    rough_mm, fine_mm = cells_mm(dies)
    pair = Fitting(dies, gap_mm, rough_mm), Fitting(dies, gap_mm, fine_mm)
    _fittings.append((key, pair))
    return pair


@dataclass(frozen=True)
class _Pattern:
    """What a cluster holds, as (family, pose), a pair and what fills it; and how full its hull is."""

    roles: tuple[tuple[int, int], ...]
    share: float


class _Choosing:
    """Chooses what is clustered, the largest family first, and keeps count of what is left."""

    def __init__(self, dies: tuple[Die, ...], gap_mm: float) -> None:
        self._dies = dies
        self._families = families_of(dies)
        self._middle = [at_rank(dies, family, 0.5) for family in self._families]
        self._rough, self._fine = _fittings_of(dies, gap_mm)
        self._left = [die.demand for die in dies]
        self._made: dict[tuple[Pose, ...], Fitted | None] = {}

    def chosen(self) -> list[list[Fitted]]:
        """Return the clusters of each family, the largest first, each as often as it is laid."""
        found: list[list[Fitted]] = []
        for f in sorted(range(len(self._families)), key=lambda f: -self._dies[self._middle[f]].area_mm2):
            pattern = self._pattern(f)
            if pattern is not None:
                found.append(self._of_family(f, pattern))
        return found

    def _pattern(self, f: int) -> _Pattern | None:
        """Return what a cluster of the family's middle size holds best; None when that is no better than its
        pieces."""
        k = self._middle[f]
        if sum(self._left[d] for d in self._families[f].dies) < 2:
            return None
        pairs = [
            self._rough.together((Pose(k, 0), Pose(k, pose))) for pose in range(len(self._dies[k].rings_mm))
        ]
        best = max((pair for pair in pairs if pair is not None), key=lambda pair: pair.share, default=None)
        if best is None:
            return None
        roles = [(f, p.pose) for p in best.poses]
        small = [
            (g, pose)
            for g in self._small_beside(f)
            for pose in range(len(self._dies[self._middle[g]].rings_mm))
        ]
        for _ in range(MOST_FILLING):
            more = [
                (fuller, (g, pose))
                for g, pose in small
                if (fuller := self._rough.joined_by(best, Pose(self._middle[g], pose))) is not None
                and fuller.share >= best.share + FILLED
            ]
            if not more:
                break
            best, role = max(more, key=lambda each: each[0].share)
            roles.append(role)
            small = [role for _, role in more]  # what does not fill now fills less with more in the way
        own = self._rough.alone(Pose(k, 0)).share
        return _Pattern(tuple(roles), best.share) if best.share >= max(FULL, own + FULLER) else None

    def _small_beside(self, f: int) -> list[int]:
        """Return the families small enough to lie in what a pair of this one leaves open."""
        most = SMALL * self._dies[self._middle[f]].area_mm2
        return [
            g
            for g, family in enumerate(self._families)
            if self._dies[self._middle[g]].area_mm2 <= most and any(self._left[d] for d in family.dies)
        ]

    def _of_family(self, f: int, pattern: _Pattern) -> list[Fitted]:
        """Return clusters of the family's pieces, two of neighbouring sizes at a time, after the pattern."""
        dies = self._families[f].dies
        pieces = [d for d in dies for _ in range(self._left[d])]
        least = max(FULL, self._rough.alone(Pose(self._middle[f], 0)).share + FULLER) - ACTUAL
        found: list[Fitted] = []
        for one, other in zip(pieces[::2], pieces[1::2], strict=False):
            pair = (Pose(one, pattern.roles[0][1]), Pose(other, pattern.roles[1][1]))
            small = self._small_ones(pattern.roles[2:], dies.index(one) / max(1, len(dies) - 1))
            for poses in ((*pair, *small), pair):
                if poses not in self._made:
                    self._made[poses] = self._fine.together(poses, pattern.share - NEARLY)
                each = self._made[poses]
                if each is not None and each.share >= least:
                    found.append(each)
                    for p in poses:
                        self._left[p.die] -= 1
                    break
        return found

    def _small_ones(self, roles: Sequence[tuple[int, int]], rank: float) -> tuple[Pose, ...]:
        """Return small pieces of about that rank in size for the roles; fewer where none are left."""
        taken: list[Pose] = []
        for g, pose in roles:
            dies = self._families[g].dies
            there = [
                (abs(number - rank * (len(dies) - 1)), d)
                for number, d in enumerate(dies)
                if self._left[d] > sum(p.die == d for p in taken)
            ]
            if there:
                taken.append(Pose(min(there)[1], pose))
        return tuple(taken)


def _dealt(problem: LayProblem, dies: Sequence[Die], found: Sequence[Fitted]) -> Clustered | None:
    """Return the problem with the clusters as items, and their members taken off the demand; without those
    that do not become one outline or do not fit on the roll."""
    left = {item.id: item.demand for item in problem.items}
    waiting = [iter([m for m in die.members for _ in range(m.demand)]) for die in dies]
    outlines = {each: _outline(dies, each, problem.gap_mm) for each in dict.fromkeys(found)}
    items: dict[tuple[Placement, ...], Item] = {}
    for each in found:
        outline = outlines[each]
        if outline is None:
            continue
        members = [next(waiting[p.die]) for p in each.poses]
        placements = tuple(
            Placement(
                m.item_id, m.turns_deg[p.pose], x - m.centres_mm[p.pose][0], y - m.centres_mm[p.pose][1]
            )
            for m, p, (x, y) in zip(members, each.poses, each.at_mm.tolist(), strict=True)
        )
        item = items.get(placements) or _item(problem, f"cluster {len(items) + 1}", outline, placements)
        if item is None:
            continue
        items[placements] = replace(item, demand=item.demand + 1)
        for m in members:
            left[m.item_id] -= 1
    rest = tuple(replace(item, demand=left[item.id]) for item in problem.items)
    clusters = {item.id: placements for placements, item in items.items()}
    return Clustered(replace(problem, items=(*rest, *items.values())), clusters) if items else None


def _item(problem: LayProblem, name: str, outline: Outline, members: Sequence[Placement]) -> Item | None:
    """Return a cluster as an item not yet asked for, in the turns that each member may take and the roll has
    room for; None when there are none."""
    turns: set[float] | None = None
    for at in members:
        allowed = problem.by_id[at.item_id].turns_deg or ()
        own = {round((turn - at.turn_deg) % 360.0, 6) for turn in allowed}
        turns = own if turns is None else turns & own
    room_mm = problem.roll.usable_width_mm - 2.0 * problem.edge_margin_mm
    fitting = []
    for turn in sorted(turns or ()):
        _, low, _, high = outline.turned(turn).bbox_mm
        if high - low <= room_mm:
            fitting.append(turn)
    while name in problem.by_id:
        name += "'"
    tolerance = min(problem.by_id[at.item_id].turn_tolerance_deg for at in members)
    return Item(name, outline, 0, tuple(fitting), turn_tolerance_deg=tolerance) if fitting else None


def _outline(dies: Sequence[Die], fitted: Fitted, gap_mm: float) -> Outline | None:
    """Return the outline of pieces set together, their gaps closed; None when they do not become one."""
    pieces = shapely.union_all(
        [
            shapely.Polygon(dies[p.die].rings_mm[p.pose] + at)
            for p, at in zip(fitted.poses, fitted.at_mm, strict=True)
        ]
    )
    radius = gap_mm / 2.0 + cells_mm(dies)[1]
    for _ in range(JOINING_TRIES):
        # rounding off and back shaves a corner by microns, which would break the margins
        closed = pieces.buffer(radius).buffer(-radius).union(pieces)
        if closed.geom_type == "Polygon":
            return Outline.of_polygon(shapely.Polygon(closed.exterior))
        radius *= 2.0
    return None
