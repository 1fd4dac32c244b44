"""Whatever is drawn or typed on a piece: a clear error, or a style that can be saved; never half of one."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.style import edits
from app.style.drafting import draw, where
from app.style.drafting.edges import break_at_corners, set_taper
from app.style.file import load_style
from app.style.model import Style
from app.style.saved.drawn import HoleDrawn, MarkDrawn, NotchDrawn, ReliefDrawn, SlitDrawn
from geometry.errors import DeskError
from tests.app.window.hands import SAMPLES

STYLE = load_style(SAMPLES["derby"])
PIECE, EDGE = "Counter", (0, 0)
NUMBERS = (0.0, -1.0, 1e-9, 400.0, 1e6, 1e12, -1e12, 1e308, math.inf, -math.inf, math.nan)
LINES = {
    "no point": (),
    "one point": ((560, 230),),
    "no length": ((560, 230), (560, 230)),
    "beside the piece": ((0, 0), (10, 400)),
    "inside the piece": ((555, 220), (565, 240)),
    "crossing itself": ((540, 190), (580, 270), (580, 190), (540, 270)),
    "forth and back": ((560, 190), (560, 270), (560, 190)),
    "along an edge": ((618, 246), (502, 246)),
    "far away": ((1e12, 0), (-1e12, 1)),
    "no number": ((math.nan, 0), (560, 230)),
    "without end": ((-math.inf, 230), (math.inf, 230)),
}


def course(points, **how):
    return where.course([where.in_frame(point) for point in points], **how)


def cut(style, points):
    return draw.add_cut(style, PIECE, 0, course(points), where.in_frame((520, 230)))


def split(style, points):
    return draw.add_split(style, PIECE, 0, course(points))


def region(style, points):
    return draw.add_region(style, PIECE, 0, course(points, closed=True))


def outside(style, points):
    return draw.add_region(style, PIECE, 0, course(points, closed=True, smooth=True), inside=False)


def change(style, points):
    return draw.change_through(style, PIECE, 0, points)


def smoothed(style, points):
    return (
        draw.smooth_stretch(style, PIECE, 0, *(points * 2)[:2]) if points else draw.add_layer(style, "", "")
    )


def slit(style, points):
    return draw.add_detail(style, PIECE, SlitDrawn(what="slit", line=course(points), on="both"))


def mark(style, points):
    return draw.add_detail(style, PIECE, MarkDrawn(what="mark", line=course(points), on="both"))


def drill(style, points):
    at = where.in_frame((points or ((0, 0),))[0])
    return draw.add_detail(style, PIECE, HoleDrawn(what="drill", at=at, on="both"))


def notch(style, points):
    at = where.beside_outline(style, PIECE, (points or ((0, 0),))[0], EDGE)
    return draw.add_detail(style, PIECE, NotchDrawn(what="notch", at=at, on="both"))


def overlap(style, mm):
    return draw.add_split(style, PIECE, 0, course(((560, 190), (560, 270))), overlap_mm=mm)


def rounded(style, mm):
    area = course(((540, 220), (580, 220), (580, 245)), closed=True, rounded_mm=mm)
    return draw.add_region(style, PIECE, 0, area)


def beside(style, mm):
    line = where.beside(style, PIECE, EDGE, mm, from_net=True)
    return draw.add_cut(style, PIECE, 0, line, where.inner_side(style, PIECE, EDGE, line))


def stay(style, mm):
    return draw.add_region(style, PIECE, 0, where.band(style, PIECE, EDGE, mm))


def taper(style, mm):
    return set_taper(style, PIECE, EDGE, 4.0, mm)


def relief(style, mm):
    ends = {
        name: where.at_edge(style, PIECE, (0, 70), share) for name, share in (("start", 0.0), ("stop", 1.0))
    }
    row = where.valid(ReliefDrawn, PIECE, what="relief", pitch_mm=mm, depth_mm=mm, width_mm=2.0, **ends)
    return draw.add_detail(style, PIECE, row)


def corner(style, degrees):
    return break_at_corners(style, PIECE, degrees)


def setback(style, mm):
    return edits.set_setback(style, PIECE, [EDGE], mm)


def sound(style: Style) -> None:
    """What came of it can be written and read again."""
    assert Style.model_validate_json(style.model_dump_json()) == style


def tried(do, value) -> None:
    before = STYLE.model_dump_json()
    try:
        made = do(STYLE, value)
    except DeskError as error:
        assert str(error).strip() and "nan" not in str(error).replace("nan ", "")
    else:
        sound(made)
    assert STYLE.model_dump_json() == before


BY_LINE = (cut, split, region, outside, change, smoothed, slit, mark, drill, notch)
BY_NUMBER = (overlap, rounded, beside, stay, taper, relief, corner, setback)


@pytest.mark.parametrize("name", LINES)
@pytest.mark.parametrize("do", BY_LINE, ids=lambda do: do.__name__)
def test_a_line_that_makes_no_sense_is_an_error_and_changes_nothing(do, name) -> None:
    tried(do, LINES[name])


@pytest.mark.parametrize("do", BY_NUMBER, ids=lambda do: do.__name__)
def test_a_figure_that_makes_no_sense_is_an_error_and_changes_nothing(do) -> None:
    for value in NUMBERS:
        tried(do, value)


HOLDS = st.lists(st.tuples(st.floats(440, 680), st.floats(150, 300)), min_size=1, max_size=7)


@settings(max_examples=40, deadline=None)
@given(points=HOLDS, do=st.sampled_from(BY_LINE))
def test_any_line_at_all_is_drawn_or_refused(points, do) -> None:
    tried(do, tuple(points))


def test_parts_may_be_split_more_often_than_the_alphabet_is_long() -> None:
    taken = {chr(code) for code in range(ord("A"), ord("Z") + 1)}
    assert draw._free_name(taken, 0) not in taken
