"""The hold tool in millimetres, without Qt: draw, move, snap, let go."""

import math
from pathlib import Path

import pytest

from app.style.file import load_style
from app.style.pieces import draft_rules, upper_piece
from app.tools.board import Board, board_piece
from app.tools.hold_line import HoldTool
from app.tools.outcome import Commit, Dropped, Preview, Refused, Select
from app.tools.pointer import Pointer

COURT = Path(__file__).parents[3] / "sample_styles/court/court.style.json"


@pytest.fixture(scope="module")
def style():
    return load_style(COURT)


def board_of(style, offset=(0.0, 0.0), flipped=False) -> Board:
    setbacks = {kind: rule.setback_mm for kind, rule in draft_rules(style).edge_rules.items()}
    base = style.size_run.base
    return Board(
        tuple(
            board_piece(
                upper_piece(style, p.name, base, p.hand), setbacks, offset, flipped=flipped,
                hold_line=p.hold_line,
            )
            for p in style.pieces
        )
    )  # fmt: skip


def at(xy, **held) -> Pointer:
    return Pointer(*xy, px_per_mm=4.0, **held)


def dragged(tool, style, board, a, b, **held):
    begun = tool.press(style, board, at(a))
    shown = tool.move(at(b, **held))
    return begun, shown, tool.release(at(b, **held))


def ends(committed, piece):
    (commit,) = [o for o in committed if isinstance(o, Commit)]
    line = commit.style.piece(piece).hold_line
    return commit.step, line.from_mm, line.to_mm


def test_a_drag_on_a_piece_draws_its_line_and_selects_it(style):
    begun, shown, done = dragged(HoldTool(), style, board_of(style), (240.0, 180.0), (340.0, 182.0))
    assert begun == [Select("Quarter outer")]
    assert [type(o) for o in shown] == [Preview]
    assert shown[0].style.piece("Quarter outer").hold_line.to_mm == (340.0, 182.0)
    assert ends(done, "Quarter outer") == ("hold line", (240.0, 180.0), (340.0, 182.0))
    assert style.piece("Quarter outer").hold_line.from_mm == (222.0, 174.0)


def test_two_clicks_do_as_well_as_a_drag(style):
    tool, board = HoldTool(), board_of(style)
    tool.press(style, board, at((240.0, 180.0)))
    assert tool.release(at((240.2, 180.0))) == []
    assert [type(o) for o in tool.move(at((300.0, 180.0)))] == [Preview]
    tool.press(style, board, at((300.0, 180.0)))
    done = tool.release(at((300.0, 180.0)))
    assert ends(done, "Quarter outer") == ("hold line", (240.0, 180.0), (300.0, 180.0))


def test_an_end_is_dragged_and_the_limit_stays(style):
    line = style.piece("Vamp").hold_line
    tool = HoldTool("Vamp")
    _, _, done = dragged(tool, style, board_of(style), line.to_mm, (80.0, 192.0))
    assert ends(done, "Vamp") == ("move hold line", line.from_mm, (80.0, 192.0))
    assert done[-1].style.piece("Vamp").hold_line.limit_mm == line.limit_mm


def test_the_whole_line_is_dragged_by_its_middle(style):
    line = style.piece("Vamp").hold_line
    middle = tuple((a + b) / 2 for a, b in zip(line.from_mm, line.to_mm, strict=True))
    _, _, done = dragged(HoldTool("Vamp"), style, board_of(style), middle, (middle[0], middle[1] + 5))
    step, start, end = ends(done, "Vamp")
    assert step == "move hold line"
    assert (start[1] - line.from_mm[1], end[1] - line.to_mm[1]) == pytest.approx((5.0, 5.0))


def test_ends_snap_to_break_points_then_to_the_outline_and_not_with_alt(style):
    board = board_of(style)
    shown = board.piece("Quarter outer")
    corner = tuple(map(float, shown.edges[0].points_mm[0]))
    near = (corner[0] + 1.5, corner[1] + 0.5)
    _, _, done = dragged(HoldTool(), style, board, (300.0, 180.0), near)
    assert ends(done, "Quarter outer")[2] == pytest.approx(corner)
    _, _, free = dragged(HoldTool(), style, board, (300.0, 180.0), near, alt=True)
    assert ends(free, "Quarter outer")[2] == pytest.approx(near)
    (x, y), (nx, ny) = shown.edges[0].point_at(0.5)
    _, _, rim = dragged(HoldTool(), style, board, (300.0, 180.0), (x + 1.2 * nx, y + 1.2 * ny))
    assert math.dist(ends(rim, "Quarter outer")[2], (x, y)) < 0.3


def test_control_keeps_the_line_to_the_pull_axis(style):
    axis = style.piece("Quarter outer").pull_axis.axis_deg
    _, _, done = dragged(HoldTool(), style, board_of(style), (240.0, 180.0), (340.0, 200.0), control=True)
    _, start, end = ends(done, "Quarter outer")
    heading = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    assert heading == pytest.approx(axis, abs=1e-6)


def test_on_a_piece_turned_glue_side_up_the_line_lies_where_the_pointer_is(style):
    board = board_of(style, offset=(500.0, -40.0), flipped=True)
    shown = board.piece("Quarter outer")
    a, b = shown.to_board((240.0, 180.0)), shown.to_board((330.0, 181.0))
    _, _, done = dragged(HoldTool(), style, board, a, b)
    assert ends(done, "Quarter outer")[1:] == (pytest.approx((240.0, 180.0)), pytest.approx((330.0, 181.0)))


def test_beside_every_piece_and_without_length_nothing_is_drawn(style):
    tool, board = HoldTool(), board_of(style)
    (refused,) = tool.press(style, board, at((-400.0, -400.0)))
    assert isinstance(refused, Refused) and tool.release(at((0.0, 0.0))) == []
    tool.press(style, board, at((240.0, 180.0)))
    tool.release(at((240.0, 180.0)))
    tool.press(style, board, at((240.3, 180.0)))
    done = tool.release(at((240.3, 180.0)))
    assert "no length" in done[-1].message and Dropped() in done
    tool.press(style, board, at((240.0, 180.0)))
    assert tool.cancel() == [Dropped()]
    assert tool.release(at((300.0, 180.0))) == []


def test_a_click_on_a_line_that_is_there_changes_nothing(style):
    line = style.piece("Vamp").hold_line
    tool = HoldTool("Vamp")
    tool.press(style, board_of(style), at(line.from_mm))
    assert not any(isinstance(o, Commit) for o in tool.release(at(line.from_mm)))
    assert tool.cursor(board_of(style), at(line.from_mm)) == "from"
    assert tool.cursor(board_of(style), at((-400.0, 0.0))) == ""
