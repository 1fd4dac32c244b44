"""Press cutting: the dies an order needs, which hands share one, and the rows each is set out in.

A die cuts its outline through every layer. Seen from the glue, a layer that lies glue side up
gives that outline, a layer turned over its mirror image; turning the *die* by half gives the same
hand again. So a die does both hands where the backing is its own mirror image, or where layers lie
turned over: face to face in one stack, or in a second stack spread glue side down. Dies that
share must cut the same holes and notches, not only the same outline.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from app.errors import UnverifiedError, UsageError
from app.lay.job import LayJob, check_mode, judged, problem_of, shapes
from app.measures import counted
from app.press.cuts import Cuts, cuts_words
from app.press.details import details_of, is_mirror, mirrored_details, same_details
from app.style.model import ClothData, Style
from geometry.outline import Outline
from geometry.piece import Notch
from geometry.said import said
from nesting.dies.die import Die, alike, dealt, dies_of
from nesting.files import lay_file
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.planning.run_plan import plies_from_height
from nesting.press.rows import PressRows, press_rows
from nesting.problem import LayProblem
from nesting.verify.fault import Verdict

Array = NDArray[np.float64]
Spread = Literal["face-up", "face-to-face", "turned"]
SPREADS: tuple[Spread, ...] = ("face-up", "face-to-face", "turned")


@dataclass(frozen=True)
class PressJob:
    """``pairs`` of a style cut on a press from one cloth, ``layers`` at a stroke.

    ``spread``: ``face-up`` all layers glue side up, ``face-to-face`` every second one turned over,
    ``turned`` the second hand in stacks of its own, spread glue side down. ``layers`` None takes what fits
    under ``cutting_height_mm``, else what the house rules allow.
    """

    style: Style
    pairs: dict[str, int]
    cloth_id: str = ""
    spread: Spread = "face-up"
    layers: int | None = None
    cutting_height_mm: float | None = None
    width_mm: float | None = None
    gap_mm: float | None = None
    seed: int = 0

    @property
    def cloth(self) -> ClothData:
        """The cloth that is cut."""
        return self.style.cloth(self.cloth_id)


@dataclass(frozen=True, eq=False)
class PressDie:
    """A die, what it cuts, and its rows on the cloth.

    ``up`` is cut from layers glue side up, ``over`` from layers turned over. ``strokes`` counts
    every stroke of the press, in ``stacks`` stacks of ``layers`` layers, each set out as ``rows``.
    ``edge_mm`` is the length of its knife. ``notes`` say what it shares or why not.
    """

    name: str
    up: tuple[Cuts, ...]
    over: tuple[Cuts, ...]
    outline: Outline
    edge_mm: float
    layers: int
    stacks: int
    rows: PressRows
    strip: LayProblem
    document: dict[str, Any]
    verdict: Verdict
    notes: tuple[str, ...] = ()

    @property
    def needed(self) -> int:
        """Pieces the order needs of it."""
        return sum(cut.needed for cut in (*self.up, *self.over))

    @property
    def strokes(self) -> int:
        """Strokes of the press."""
        return len(self.rows.turned) * self.stacks

    @property
    def pieces_cut(self) -> int:
        """Pieces that the strokes give."""
        return self.strokes * self.layers

    @property
    def hands(self) -> tuple[str, ...]:
        """The hands it cuts."""
        found = {cut.hand for cut in (*self.up, *self.over)}
        return tuple(hand for hand in ("left", "right") if hand in found)

    def cloth_m(self, end_loss_mm: float) -> float:
        """Metres of cloth its stacks take, each with ``end_loss_mm`` lost at both ends of a layer."""
        return self.stacks * self.layers * (self.rows.length_mm + 2.0 * end_loss_mm) / 1000.0

    @property
    def net_mm2(self) -> float:
        """Area of the pieces cut."""
        return self.outline.area_mm2 * self.pieces_cut


@dataclass(frozen=True, eq=False)
class _Cutter:
    """A die before it is set out: its shape, and what it cuts of either hand of the cloth."""

    die: Die
    up: tuple[Cuts, ...]
    over: tuple[Cuts, ...]
    item: Item
    notes: tuple[str, ...]


def layers_of(job: PressJob) -> int:
    """Return how many layers a stroke cuts; raises UsageError when nothing says it."""
    rules, cloth = job.style.rules, job.cloth
    layers = job.layers
    if layers is None:
        height = job.cutting_height_mm or rules.cutting_height_mm
        if job.cutting_height_mm and not cloth.thickness_mm:
            raise UsageError(
                said("the thickness of {0} is not known, so its layers cannot be counted", cloth.name),
                remedy="give --layers N, or enter the cloth's thickness",
            )
        if height and cloth.thickness_mm:
            layers = plies_from_height(height, cloth.thickness_mm)
        if rules.max_plies:
            layers = min(layers or rules.max_plies, rules.max_plies)
        if layers is None:
            raise UsageError(
                "how many layers are cut per stroke is not known",
                remedy="give --layers N, or --cutting-height MM of the die above its bed",
            )
        if job.spread == "face-to-face":
            layers -= layers % 2
    if layers < 1:
        raise UsageError(
            said("{0} layers cannot be cut", layers), remedy="give --layers, 2 or more face to face"
        )
    return layers


def press_dies(
    job: PressJob,
    *,
    tell: Callable[[str], None] = lambda text: None,
    show: Callable[[PressDie], None] = lambda die: None,
    first: int = 1,
) -> tuple[PressDie, ...]:
    """Return the dies of one cloth set out in rows, named D``first`` on, every strip verified.

    Each is told in words (``tell``) and as it lies (``show``) once it is done.

    Raises UsageError when the cloth cannot be spread so, UnverifiedError when a strip has a fault.
    """
    layers = layers_of(job)
    both = LayJob(
        job.style, job.pairs, job.cloth_id, width_mm=job.width_mm, gap_mm=job.gap_mm, with_flaws=False
    )
    problem = problem_of(both)
    if job.spread != "face-up":
        face = replace(both, mode="face-to-face", plies=layers if job.spread == "face-to-face" else 2)
        check_mode(face, job.cloth)
    cutters = _cutters(job, problem)
    done: list[PressDie] = []
    found: list[tuple[_Cutter, int, PressRows]] = []
    for cutter in cutters:
        name = f"D{first + len(done)}"
        places, stacks = _strokes(job.spread, cutter, layers)
        known = next(
            (rows.mirrored for old, n, rows in found if n == places and is_mirror(old.die, cutter.die)), None
        )
        rows = known or _set_out(job, problem, cutter, places)
        found.append((cutter, places, rows))
        done.append(_finished(job, problem, cutter, name, layers, stacks, rows))
        show(done[-1])
        tell(
            said(
                "{0} of {1}: {2}, {3}",
                name,
                first + len(cutters) - 1,
                cuts_words(done[-1].document["cuts"]),
                counted(places * stacks, "stroke"),
            )
        )
    return tuple(done)


def _set_out(job: PressJob, problem: LayProblem, cutter: _Cutter, places: int) -> PressRows:
    rings = cutter.die.rings_mm
    return press_rows(
        Outline.make(rings[0]),
        problem.roll.usable_width_mm,
        problem.gap_mm,
        places,
        edge_margin_mm=problem.edge_margin_mm,
        end_margin_mm=problem.end_margin_mm,
        one_way=len(rings) == 1,
        seed=job.seed,
    )


def _strokes(spread: Spread, cutter: _Cutter, layers: int) -> tuple[int, int]:
    """Return places of a stack's strip, and how many stacks are cut by it."""
    up, over = (sum(cut.needed for cut in cuts) for cuts in (cutter.up, cutter.over))
    if not over:
        return math.ceil(up / layers), 1
    if spread == "face-to-face":
        return math.ceil(max(up, over) / (layers // 2)), 1
    return math.ceil(max(up, over) / layers), 2


def _cutters(job: PressJob, problem: LayProblem) -> list[_Cutter]:
    """Return the dies of a problem that holds both hands, by the layers they are cut from."""
    nicks = {
        f"{shape.piece} {shape.size} {shape.hand}": shape.notches
        for shape in shapes(job.style, list(job.pairs), ("left", "right"), job.cloth.id)
    }
    made: list[_Cutter] = []
    for die in dies_of(problem):
        groups: list[list[int]] = []
        for k, member in enumerate(die.members):
            item = problem.by_id[member.item_id]
            details = details_of(die, k, item, nicks[item.id])
            for group in groups:
                first = problem.by_id[die.members[group[0]].item_id]
                if same_details(details_of(die, group[0], first, nicks[first.id]), details):
                    group.append(k)
                    break
            else:
                groups.append([k])
        for group in groups:
            items = [problem.by_id[die.members[k].item_id] for k in group]
            cuts = tuple(Cuts(i.piece, i.size, i.hand, i.demand) for i in items)
            own = replace(die, members=tuple(die.members[k] for k in group))
            made.append(_Cutter(own, cuts, (), items[0], _notes(cuts, len(groups) > 1)))
    return made if job.spread == "face-up" else _paired(nicks, made)


def _paired(nicks: dict[str, tuple[Notch, ...]], cutters: list[_Cutter]) -> list[_Cutter]:
    """Join dies that are each other's mirror image: one cuts layers glue side up, and turned over."""
    joined: list[_Cutter] = []
    left = list(cutters)
    while left:
        one = left.pop(0)
        for other in left:
            if is_mirror(one.die, other.die) and mirrored_details(
                (one.die, details_of(one.die, 0, one.item, nicks[one.item.id])),
                (other.die, details_of(other.die, 0, other.item, nicks[other.item.id])),
            ):
                left.remove(other)
                one = replace(one, over=other.up, notes=("both hands: layers turned over give the other",))
                break
        joined.append(one)
    return joined


def _notes(cuts: tuple[Cuts, ...], split: bool) -> tuple[str, ...]:
    notes = []
    if len(cuts) > len({(cut.piece, cut.size) for cut in cuts}):
        notes.append("both hands: the outline is its own mirror image")
    elif len({cut.hand for cut in cuts}) == 2:
        notes.append("both hands: the left of one piece is the right of another")
    if len({(cut.piece, cut.size) for cut in cuts}) > 1:
        notes.append("several pieces or sizes of one outline: mark them at the press, the die does not")
    if split:
        notes.append("another die has the same outline but other notches or holes")
    return tuple(notes)


def _finished(
    job: PressJob,
    problem: LayProblem,
    cutter: _Cutter,
    name: str,
    layers: int,
    stacks: int,
    rows: PressRows,
) -> PressDie:
    """Deal the die out to its places, judge the strip, and put it on paper's terms."""
    cuts = (*cutter.up, *cutter.over)
    hands = {cut.hand for cut in cutter.up}
    pieces = " / ".join(dict.fromkeys(cut.piece for cut in cuts))
    sizes = "/".join(dict.fromkeys(cut.size for cut in cuts))
    item = replace(
        cutter.item,
        id=name,
        demand=len(rows.turned),
        piece=pieces,
        size=sizes,
        hand=cutter.item.hand if len(hands) == 1 else "",
    )
    strip = replace(problem, items=(item,), name=f"{job.style.name} {name}")
    placements = placed(strip, rows, rows.corners_mm, rows.turned)
    lay = Lay(placements, strip.length_of_mm(placements), engine="press rows", seed=job.seed)
    verdict = judged(strip, lay)
    if not verdict.ok:
        raise UnverifiedError(said("the rows of die {0} do not verify: {1}", name, verdict.faults[0].message))
    document = lay_file.to_document(strip, lay, plies=layers, extra=_extra(job, rows, name, stacks, cuts))
    return PressDie(
        name,
        cutter.up,
        cutter.over,
        cutter.item.outline,
        cutter.item.outline.perimeter_mm,
        layers,
        stacks,
        rows,
        strip,
        document,
        verdict,
        cutter.notes,
    )


def placed(
    strip: LayProblem, rows: PressRows, corners_mm: Array, turned: NDArray[np.bool_]
) -> tuple[Placement, ...]:
    """Return the placements of a die's only item at the corners and ways up of its rows."""
    (die,) = dies_of(strip)
    half = np.array(rows.size_mm) / 2.0
    # the rows may count the two poses the other way round than the item alone
    swap = not alike(rows.lattice.rings_mm[0], die.rings_mm[0])
    at = [
        (0, int(way) ^ int(swap), float(x + half[0]), float(y + half[1]))
        for (x, y), way in zip(corners_mm, turned.tolist(), strict=True)
    ]
    return dealt((die,), at)


def _extra(job: PressJob, rows: PressRows, name: str, stacks: int, cuts: Sequence[Cuts]) -> dict[str, Any]:
    cloth, rules = job.cloth, job.style.rules
    return {
        "style": job.style.name,
        "cloth": {"id": cloth.id, "name": cloth.name, "how_known": cloth.how_known, "one_way": cloth.one_way},
        "die": name,
        "cuts": [asdict(cut) for cut in cuts],
        "spread": job.spread,
        "stacks": stacks,
        "step_mm": rows.step_mm,
        "row_pitch_mm": rows.pitch_mm,
        "turn_tolerance_deg": rules.turn_tolerance_deg,
        "end_loss_mm": rules.end_loss_mm,
        "chord_mm": rules.chord_mm,
    }
