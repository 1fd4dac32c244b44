"""Nonsense typed, chosen or dropped on the Draft desk: it is said why, and nothing that was done is lost."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QInputDialog, QLabel

from app.style.document import Document
from app.style.file import load_style
from app.window.desks.draft.whole.questions import ShapeQuestion, TwinQuestion
from geometry.dxf.read import read_drawing
from tests.app.window.hands import SAMPLES, key, with_next_dialog

SHIFT, CTRL = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier
NONSENSE = ("1e9", "nan", "-5", "", "  ", "è/ ..", "9" * 300)


@pytest.fixture(scope="module")
def desk(shared):
    window = shared.window
    window.session.open(Document(load_style(SAMPLES["derby"])))
    window.show_desk(0)
    window.session.apply("a step to take back", window.session.style.model_copy(update={"note": "kept"}))
    window.desk.fit()
    QApplication.processEvents()
    yield window.desk
    window.desk.gestures.let_go()
    window.session.open(None)
    window.desks[0].stop()


@pytest.fixture
def said(desk):
    """What the desk says; in the end nothing was lost, and what was done before can be taken back."""
    session = desk.session
    before, labels, told = session.style, session.document.labels, []
    desk.status.connect(told.append)
    yield told
    desk.status.disconnect(told.append)
    desk.stop()
    assert session.document.style is before and session.style is before
    assert session.document.labels == labels and session.document.undo_label == "a step to take back"


def typed(field, text) -> None:
    field.setFocus()
    field.setText(text)
    QTest.keyClick(field, Qt.Key.Key_Return)


@pytest.mark.parametrize("text", NONSENSE, ids=lambda t: t[:6])
def test_a_size_system_or_girth_that_is_none(desk, said, text) -> None:
    page = desk.side.sizes
    desk.actions_made["draft.page_sizes"].trigger()
    typed(page.base, text)
    assert bool(said) and page.base.text() == "42"
    said.clear()
    typed(page.girth, text if text.strip() else "x")
    assert said and page.girth.text() == "245"
    if text.strip():  # an empty field adds nothing, and that is no mistake
        said.clear()
        typed(page.new, text)
        assert said and ";" in said[-1]
    page.new.clear()
    desk.actions_made["draft.page_piece"].trigger()


@pytest.mark.parametrize("name", ["", "   ", "Vamp", " Vamp "])
def test_a_twin_needs_a_name_of_its_own(desk, said, name) -> None:
    desk.pick_piece("Tongue")

    def mirror(dialog) -> None:
        assert isinstance(dialog, TwinQuestion)
        dialog.name.setText(name)
        dialog.accept()

    with_next_dialog(mirror)
    key(desk.window(), Qt.Key.Key_M, SHIFT)
    assert ";" in said[-1]


@pytest.mark.parametrize(
    ("sides", "corners"),
    [
        *((text, "") for text in NONSENSE),
        ("10", "a b c"),
        ("", "0,0 1"),
        ("", "0,0 1e9,0 0,5"),
        ("", "0,0 4,4 8,8"),
    ],
    ids=str,
)
def test_a_new_piece_of_no_size_or_shape(desk, said, sides, corners) -> None:
    def draw(dialog) -> None:
        assert isinstance(dialog, ShapeQuestion)
        dialog.width_field.setText(sides)
        dialog.height_field.setText("10")
        dialog.corners.setText(corners)
        dialog.accept()

    with_next_dialog(draw)
    key(desk.window(), Qt.Key.Key_G, SHIFT)
    assert ";" in said[-1]


def test_pieces_that_do_not_meet_are_not_backed_in_one(desk, said) -> None:
    desk.pick_piece("Tongue")
    desk.pick_piece("Vamp")

    def choose(dialog) -> None:
        assert isinstance(dialog, QInputDialog)
        dialog.setTextValue("Tongue")
        dialog.accept()

    with_next_dialog(choose)
    key(desk.window(), Qt.Key.Key_J, SHIFT)
    assert "do not meet; draw the pieces where they lie" in said[-1]


def test_what_is_no_half_pattern_is_neither_unfolded_nor_folded(desk, said) -> None:
    desk.pick_piece("Vamp")
    key(desk.window(), Qt.Key.Key_U, SHIFT)
    assert "no centre edge; " in said[-1]
    desk.pick_piece("Quarter outer")
    key(desk.window(), Qt.Key.Key_F, SHIFT)
    assert "no axis of symmetry; " in said[-1]


@pytest.mark.parametrize("content", [b"", bytes(range(256)), b"[1, 2]"], ids=["empty", "bytes", "JSON"])
def test_a_file_that_is_no_drawing_is_named(desk, said, tmp_path, monkeypatch, content) -> None:
    monkeypatch.setattr(
        "app.window.drawing_import.read_with_progress", lambda path, parent, **how: read_drawing(path, **how)
    )
    path = tmp_path / "no drawing.dxf"
    path.write_bytes(content)
    desk.whole.add_from(path)
    assert "no drawing.dxf" in said[-1] and ";" in said[-1]
    shown = []

    def read(dialog) -> None:
        shown.append(" ".join(label.text() for label in dialog.findChildren(QLabel)))
        dialog.reject()

    with_next_dialog(read)
    assert not desk.window().files.revise(path)
    assert "no drawing.dxf" in shown[0]
