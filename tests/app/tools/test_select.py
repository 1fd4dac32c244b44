"""The selecting tool in millimetres, without Qt: click, sweep, drag a break point, turn the axis."""

from pathlib import Path

import pytest

from app.style.file import load_style
from app.style.pieces import draft_rules, upper_piece
from app.tools.board import Board, board_piece, spread_offsets
from app.tools.breaks import BreakTool
from app.tools.flaw import FlawTool
from app.tools.likeness import mirrored_edges, similar_edges
from app.tools.measure import MeasureTool
from app.tools.outcome import Commit, Dropped, Preview, Refused, Select, Span, Sweep
from app.tools.pointer import Pointer
from app.tools.select import SelectTool

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def style():
    return load_style(ROOT / "sample_styles/derby/derby.style.json")


def board_of(style, offset=(0.0, 0.0), flipped=False) -> Board:
    rules = draft_rules(style)
    setbacks = {kind: rule.setback_mm for kind, rule in rules.edge_rules.items()}
    return Board(
        tuple(
            board_piece(
                upper_piece(style, p.name, style.size_run.base, p.hand), setbacks, offset, flipped=flipped
            )
            for p in style.pieces
        )
    )


@pytest.fixture(scope="module")
def board(style) -> Board:
    return board_of(style)


def middle_of(board: Board, piece: str, k: int) -> Pointer:
    shown = board.piece(piece)
    point, _ = shown.edges[k].point_at(0.5)
    return Pointer(*shown.to_board(point), px_per_mm=4.0)


def at(x: float, y: float, **held) -> Pointer:
    return Pointer(x, y, px_per_mm=4.0, **held)


def test_a_click_on_an_edge_selects_it_and_its_piece(style, board):
    tool = SelectTool()
    where = middle_of(board, "Vamp", 0)
    tool.press(style, board, where)
    assert tool.release(where) == [Select("Vamp", frozenset({board.piece("Vamp").edges[0].name}))]


def test_shift_adds_an_edge_and_takes_it_away_again(style, board):
    names = [edge.name for edge in board.piece("Vamp").edges]
    tool = SelectTool("Vamp", frozenset({names[0]}))
    for expected in ({names[0], names[2]}, {names[0]}):
        where = middle_of(board, "Vamp", 2)
        held = Pointer(where.x_mm, where.y_mm, 4.0, shift=True)
        tool.press(style, board, held)
        assert tool.release(held) == [Select("Vamp", frozenset(expected))]


def test_a_click_inside_selects_the_piece_and_outside_nothing(style, board):
    tool = SelectTool()
    tool.press(style, board, at(500, 100))
    assert tool.release(at(500, 100)) == [Select("Tongue")]
    tool.press(style, board, at(-50, -50))
    assert tool.release(at(-50, -50)) == [Select("")]


def test_a_sweep_selects_the_edges_it_touches(style, board):
    tool = SelectTool("Tongue")
    tool.press(style, board, at(440, 30))
    assert isinstance(tool.move(at(550, 60))[0], Sweep)
    end, select = tool.release(at(560, 60))
    assert end == Sweep(None) and select.piece == "Tongue"
    assert board.piece("Tongue").edges[0].name in select.edges
    assert 1 < len(select.edges) < 4


def test_dragging_an_end_of_the_axis_turns_it_in_one_step(style, board):
    tool = SelectTool("Vamp")
    shown = board.piece("Vamp")
    end = shown.axis_ends_mm()[1]
    cx, cy = shown.middle_mm
    tool.press(style, board, at(*end))
    (preview,) = tool.move(at(cx + 50, cy + 50))
    assert isinstance(preview, Preview) and preview.style.piece("Vamp").pull_axis.axis_deg == 45
    (commit,) = tool.release(at(cx + 50, cy + 50))
    axis = commit.style.piece("Vamp").pull_axis
    assert isinstance(commit, Commit) and (axis.axis_deg, axis.source, axis.confirmed) == (45, "person", True)


def test_control_snaps_the_axis_to_five_degrees(style, board):
    tool = SelectTool("Vamp")
    cx, cy = board.piece("Vamp").middle_mm
    tool.press(style, board, at(*board.piece("Vamp").axis_ends_mm()[0]))
    (preview,) = tool.move(at(cx + 100, cy + 57, control=True))
    assert preview.style.piece("Vamp").pull_axis.axis_deg == 30


def test_a_break_point_is_dragged_from_vertex_to_vertex_but_not_past_its_neighbour(style, board):
    shown = board.piece("Vamp")
    ring, start = shown.edges[1].name
    outline = shown.outline.ring_mm
    tool = SelectTool("Vamp")
    tool.press(style, board, at(*outline[start]))
    (preview,) = tool.move(at(*outline[start + 3]))
    assert (ring, start + 3) in {(e.ring, e.start) for e in preview.style.piece("Vamp").edges}
    beyond = shown.edges[3].name[1] + 2
    (refused,) = tool.move(at(*outline[beyond % len(outline)]))
    assert isinstance(refused, Refused) and "neighbour" in refused.message
    (commit,) = tool.release(at(*outline[start + 3]))
    assert commit.step == "move break" and commit.style == preview.style


def test_escape_gives_up_the_gesture_then_the_edges_then_the_piece(style, board):
    tool = SelectTool("Vamp", frozenset({(0, 0)}))
    tool.press(style, board, at(*board.piece("Vamp").axis_ends_mm()[0]))
    tool.move(at(0, 0))
    assert Dropped() in tool.cancel()
    assert tool.release(at(0, 0)) == []
    assert tool.cancel() == [Select("Vamp")]
    assert tool.cancel() == [Select("")]


def test_a_flipped_and_moved_piece_is_hit_where_it_is_shown(style):
    board = board_of(style, offset=(1000.0, -40.0), flipped=True)
    shown = board.piece("Quarter outer")
    for k in range(len(shown.edges)):
        piece, edge = board.edge_near(middle_of(board, "Quarter outer", k).xy_mm, 1.0)
        assert (piece.name, edge.name) == ("Quarter outer", shown.edges[k].name)
    tool = SelectTool("Quarter outer")
    cx, cy = shown.to_board(shown.middle_mm)
    tool.press(style, board, at(*shown.axis_ends_mm()[0]))
    (preview,) = tool.move(at(cx + 50, cy + 50))
    assert preview.style.piece("Quarter outer").pull_axis.axis_deg == -45


def test_the_break_tool_adds_and_removes(style, board):
    shown = board.piece("Vamp")
    vertex = shown.edges[0].name[1] + 8
    where = at(*shown.outline.ring_mm[vertex])
    tool = BreakTool("Vamp")
    tool.press(style, board, where)
    (added,) = tool.release(where)
    assert added.step == "add break"
    assert (0, vertex) in {(e.ring, e.start) for e in added.style.piece("Vamp").edges}
    tool.press(added.style, board_of(added.style), where)
    (removed,) = tool.release(where)
    assert removed.step == "remove break" and removed.style == style


def test_a_measure_snaps_to_drawn_points_and_alt_does_not(style, board):
    a, b = board.piece("Tongue").outline.ring_mm[[0, 40]]
    tool = MeasureTool()
    tool.press(style, board, at(a[0] + 0.7, a[1]))
    span = tool.move(at(b[0], b[1] + 0.7))[0]
    assert isinstance(span, Span)
    assert span.from_mm == pytest.approx(tuple(a)) and span.to_mm == pytest.approx(tuple(b))
    free = tool.move(at(b[0], b[1] + 0.7, alt=True))[0]
    assert free.to_mm == pytest.approx((b[0], b[1] + 0.7)) and free.snapped == (True, False)
    assert tool.cancel() == [Span(None, None)]


def test_a_measure_by_two_clicks(style, board):
    tool = MeasureTool()
    tool.press(style, board, at(0, 0))
    tool.release(at(0, 0))
    assert tool.move(at(30, 40))[0].to_mm == (30, 40)
    tool.press(style, board, at(30, 40))
    assert tool.release(at(30, 40)) == [Span((0, 0), (30, 40), (False, False))]
    assert tool.move(at(99, 99)) == []


def test_the_edges_of_the_outer_quarter_are_found_on_the_inner_one(style, board):
    outer, inner = board.piece("Quarter outer"), board.piece("Quarter inner")
    names = [edge.name for edge in outer.edges]
    found = mirrored_edges(outer, names, [p for p in board.pieces if p is not outer])
    on_inner = {target: source for (piece, target), source in found.items() if piece == "Quarter inner"}
    assert len(on_inner) == len(inner.edges)
    for target, source in on_inner.items():
        assert inner.edge(target).kind is outer.edge(source).kind


def test_the_vamp_mirrors_its_own_edges_across_the_pull_axis(style, board):
    vamp = board.piece("Vamp")
    sides = [edge for edge in vamp.edges if edge.kind.value == "underlay"]
    first = min(sides, key=lambda edge: edge.point_at(0.5)[0][1])
    last = max(sides, key=lambda edge: edge.point_at(0.5)[0][1])
    assert mirrored_edges(vamp, [first.name], [])[("Vamp", last.name)] == first.name


def test_a_piece_is_similar_to_itself_under_another_name_only(style, board):
    vamp = board.piece("Vamp")
    names = [edge.name for edge in vamp.edges]
    found = similar_edges(vamp, names, [board_of(style, (300.0, 0.0)).piece("Vamp")])
    assert {target: source for (_, target), source in found.items()} == {name: name for name in names}
    assert similar_edges(vamp, names, [board.piece("Tongue")]) == {}


def test_boxes_that_overlap_are_spread_and_others_stay():
    apart = [(0.0, 0.0, 10.0, 10.0), (20.0, 0.0, 30.0, 10.0)]
    assert spread_offsets(apart) == [(0.0, 0.0), (0.0, 0.0)]
    boxes = [(0.0, 0.0, 10.0, 10.0), (5.0, 5.0, 40.0, 25.0), (0.0, 0.0, 3.0, 3.0)]
    moved = [
        (x0 + dx, y0 + dy, x1 + dx, y1 + dy)
        for (x0, y0, x1, y1), (dx, dy) in zip(boxes, spread_offsets(boxes), strict=True)
    ]
    for i, a in enumerate(moved):
        for b in moved[i + 1 :]:
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def test_a_flaw_is_swept_within_the_usable_width_and_found_by_a_click(style):
    tool = FlawTool(style.cloths[0].id)
    tool.press(style, at(100, -30))
    tool.move(at(160, 50))
    _, commit = tool.release(at(160, 50))
    (flaw,) = commit.style.cloths[0].flaws
    assert flaw.ring_mm == ((100, 0), (160, 0), (160, 50), (100, 50))
    tool.press(commit.style, at(130, 20))
    tool.release(at(130, 20))
    assert tool.chosen == 0
    tool.press(commit.style, at(900, 20))
    tool.release(at(900, 20))
    assert tool.chosen == -1
