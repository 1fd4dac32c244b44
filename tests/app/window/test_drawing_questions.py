"""A drawing opened in the window: what it leaves open is listed or asked, never guessed."""

from PySide6.QtCore import Qt

from app.window.drawing_import import SizeQuestion, UnitQuestion
from geometry.findings import Severity
from tests.app.window.hands import ROOT, with_next_dialog

CTRL, ALT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
)


def test_a_drawing_becomes_a_style_with_everything_open_listed(shell, qtbot):
    window = shell.window
    assert window.files.open_paths([ROOT / "sample_styles/boot/boot.dxf"])
    desk = window.desk
    assert window.isWindowModified() and shell.session.document.path is None
    style = shell.session.style
    assert any(not edge.confirmed for piece in style.pieces for edge in piece.edges)
    qtbot.waitUntil(lambda: desk.findings.model.rowCount() > 0)
    assert any(f.severity is Severity.QUESTION for f in desk.findings.model.rows)


def test_a_drawing_without_unit_asks_and_shows_how_large_it_would_be(shell, tmp_path):
    import ezdxf

    drawing = ezdxf.new(units=0)
    space = drawing.modelspace()
    space.add_lwpolyline([(0, 0), (90, 0), (100, 60), (0, 50)], close=True)
    path = tmp_path / "plain.dxf"
    drawing.saveas(path)
    asked = []

    def unit(dialog) -> None:
        assert isinstance(dialog, UnitQuestion)
        texts = [button.text() for button in dialog.group.buttons()]
        asked.append(texts)
        next(b for b in dialog.group.buttons() if b.text().startswith("mm")).click()
        with_next_dialog(size)
        dialog.accept()

    def size(dialog) -> None:
        assert isinstance(dialog, SizeQuestion)
        dialog.size_field.setText("38")
        dialog.accept()

    with_next_dialog(unit)
    assert shell.window.files.open_paths([path])
    assert any("100.0 × 60.0" in text for text in asked[0])
    assert shell.session.style.size_run.base == "38"


def test_a_question_left_unanswered_opens_nothing(shell, tmp_path):
    import ezdxf

    drawing = ezdxf.new(units=0)
    drawing.modelspace().add_lwpolyline([(0, 0), (90, 0), (100, 60), (0, 50)], close=True)
    path = tmp_path / "plain.dxf"
    drawing.saveas(path)
    with_next_dialog(lambda dialog: dialog.reject())
    assert not shell.window.files.open_paths([path])
    assert shell.session.document is None


def test_a_file_that_is_no_drawing_is_told(shell, tmp_path):
    bad = tmp_path / "letter.dxf"
    bad.write_text("Dear sirs", encoding="utf-8")
    told = []
    with_next_dialog(lambda dialog: told.append(dialog.windowTitle()))
    assert not shell.window.files.open_paths([bad])
    assert told == ["This could not be done"]
