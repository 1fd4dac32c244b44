"""The derby drafted from bare pieces by mouse and keys, through to its boards and its lays.

The toe of the vamp left free, an eyelet layer of another cloth, a quarter in two parts that overlap, a
setback that runs from one value to another: each carried over the whole run of sizes.
"""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QInputDialog
from shapely.geometry import Point

from app.lay.job import LayJob, problem_of
from app.papers import boards
from app.papers.formats.drawing import Text
from app.papers.shown import Drafted
from app.style.document import Document
from app.style.file import load_style
from app.style.pieces import piece_backings, uppers_and_backings
from app.window.desks.draft.drawing.figures import FiguresDialog
from geometry.edge_kinds import EdgeKind
from nesting.free import first_layout
from nesting.verify import verify
from tests.app.window.hands import SAMPLES, click, key, with_next_dialog

CTRL, SHIFT, ALT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
)
TOE = ((150, 10), (163, 80), (166, 128), (163, 180), (150, 250))
EYELETS = ((328, 276), (337, 262), (310, 241), (286, 219), (266, 203), (250, 214), (250, 236), (306, 285))
ACROSS = ((344, 130), (339, 10))
OVERLAP_MM, SETBACKS_MM = 8.0, (4.0, 8.0)


def at(desk, piece, xy):
    return desk.board.piece(piece).to_board(xy)


def line(desk, piece, points):
    for point in points:
        click(desk.view, at(desk, piece, point), ALT)
    key(desk.window(), Qt.Key.Key_Return)


def typed(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def bare(desk):
    """What the sample brings along is taken back: no toe line, no eyelet layers."""

    def last(dialog):
        assert isinstance(dialog, QInputDialog)
        dialog.accept()

    for piece in ("Vamp", "Quarter outer", "Quarter inner"):
        desk.select(piece)
        with_next_dialog(last)
        key(desk.window(), Qt.Key.Key_Backspace, SHIFT)


def toe_free(desk):
    key(desk.window(), Qt.Key.Key_X)
    smooth = desk.gestures.bar.smooth
    smooth.setFocus()
    QTest.keyClick(smooth, Qt.Key.Key_Space)
    assert smooth.isChecked()
    line(desk, "Vamp", TOE)
    click(desk.view, at(desk, "Vamp", (130, 130)), ALT)
    QTest.keyClick(smooth, Qt.Key.Key_Space)


def eyelets(desk):
    click(desk.view, at(desk, "Quarter outer", (360, 210)))
    key(desk.window(), Qt.Key.Key_R)
    bar = desk.gestures.bar
    bar.layer.setFocus()
    QTest.keyClick(bar.layer, Qt.Key.Key_End)  # one more layer, of the cloth named last
    bar.layer.activated.emit(bar.layer.currentIndex())
    typed(bar.figure, "5")
    line(desk, "Quarter outer", EYELETS)


def split(desk):
    key(desk.window(), Qt.Key.Key_W)
    bar = desk.gestures.bar
    typed(bar.figure, f"{OVERLAP_MM:g}")
    for field, name in zip(bar.parts, ("front", "back"), strict=True):
        typed(field, name)
    line(desk, "Quarter inner", ACROSS)


def taper(desk):
    key(desk.window(), Qt.Key.Key_E)
    shown = desk.board.piece("Quarter outer")
    edge = next(e for e in shown.edges if e.kind is EdgeKind.FOLDED)
    click(desk.view, shown.to_board(edge.point_at(0.37)[0]))

    def fill(dialog):
        assert isinstance(dialog, FiguresDialog)
        for field, value in zip(dialog.fields, SETBACKS_MM, strict=True):
            field.setFocus()
            QTest.keyClicks(field, f"{value:g}")
        QTest.keyClick(dialog.fields[-1], Qt.Key.Key_Return)

    with_next_dialog(fill)
    key(desk.window(), Qt.Key.Key_S, SHIFT)


STEPS = (bare, toe_free, eyelets, split, taper)


@pytest.fixture(scope="module")
def drafted(shared):
    """The style as the hands leave it, and how many steps they took."""
    window = shared.window
    window.session.open(Document(load_style(SAMPLES["derby"])))
    window.show_desk(0)
    desk = window.desk
    desk.fit()
    QApplication.processEvents()
    for step in STEPS:
        step(desk)
    style, labels = window.session.style, window.session.document.labels
    desk.gestures.let_go()
    desk.gestures.let_go()
    window.session.open(None)
    window.desks[0].stop()
    return style, labels


SIZES = ("40", "41", "42", "43", "44", "45")


def shapes(style, piece, layer=0):
    """The backing of a piece in every size, small to large."""
    return [piece_backings(style, piece, size, "left")[layer] for size in SIZES]


def test_every_step_of_the_hands_is_a_step_that_can_be_taken_back(drafted):
    style, labels = drafted
    assert labels == (
        *(f"Remove what was drawn · {name}" for name in ("Vamp", "Quarter outer", "Quarter inner")),
        *("Draw cut line · Vamp", "Draw region · Quarter outer"),
        *("Split backing · Quarter inner", "Setback along edge · Quarter outer"),
    )
    assert style.size_run.sizes == SIZES


def test_the_toe_stays_free_in_every_size(drafted):
    style, _ = drafted
    for backing in shapes(style, "Vamp"):
        toe = max(backing.upper.outline.polygon.exterior.coords)
        assert len(backing.outlines) == 1
        free = Point(toe).distance(backing.outlines[0].polygon)
        assert 36.0 < free < 46.0  # drawn 40 mm from the toe of 42; it grows with the vamp
    lengths = [b.outlines[0].bbox_mm[2] - b.outlines[0].bbox_mm[0] for b in shapes(style, "Vamp")]
    assert lengths == sorted(lengths)


def test_the_eyelet_layer_is_of_another_cloth_and_lies_round_every_eyelet_in_every_size(drafted):
    style, _ = drafted
    assert [layer.cloth for layer in style.piece("Quarter outer").layers] == ["", "plain-110"]
    for backing in shapes(style, "Quarter outer", 1):
        (patch,) = backing.outlines
        assert backing.upper.outline.polygon.covers(patch.polygon)
        holes = [Point(hole.x_mm, hole.y_mm) for hole in backing.upper.drill_holes]
        assert len(holes) == 5 and all(patch.polygon.contains(hole) for hole in holes)


def test_the_parts_of_the_quarter_overlap_alike_and_have_one_pull_axis_in_every_size(drafted):
    style, _ = drafted
    for backing in shapes(style, "Quarter inner"):
        assert sorted(backing.part_names) == ["back", "front"]
        lap = backing.outlines[0].polygon.intersection(backing.outlines[1].polygon)
        assert not lap.buffer(-OVERLAP_MM / 2 + 0.02).is_empty  # as wide as typed, and no wider
        assert lap.buffer(-OVERLAP_MM / 2 - 0.02).is_empty
        assert len(backing.notches) >= 4  # two marks of the match on either part
        assert backing.upper.pull_axis.axis_deg == 0.0


def test_the_setback_runs_from_four_to_eight_in_every_size(drafted):
    style, _ = drafted
    for backing in shapes(style, "Quarter outer"):
        edging = backing.upper.edging.edges[0]
        k = next(n for n, edge in enumerate(edging) if edge.kind is EdgeKind.FOLDED)
        assert (edging[k].setback_mm, edging[k].setback_end_mm) == SETBACKS_MM


def test_boards_of_what_was_drafted_and_lays_of_both_cloths(drafted):
    style, _ = drafted
    pages = boards.pages(Drafted(style, uppers_and_backings(style, ["42"], ("left",))))
    said = " ".join(mark.text for page in pages for mark in page.drawing.walk() if isinstance(mark, Text))
    for word in ("part 1 of 2", "part 2 of 2", "BACKING, layer 2, glue side up"):
        assert word in said
    halves = {"Quarter inner, part back", "Quarter inner, part front"}
    asked = {
        "twill-150": {"Vamp", "Quarter outer", "Counter"} | halves,
        "plain-110": {"Quarter outer, layer 2"},
    }
    for cloth, names in asked.items():
        problem = problem_of(LayJob(style, {"45": 1}, cloth))
        lay = first_layout.solve(problem)
        assert verify(problem, lay).ok
        assert {item.piece for item in problem.items} == names
