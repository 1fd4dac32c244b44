"""Bringing drawings in: a frame is asked about in pictures, a long reading can be cancelled."""

from __future__ import annotations

import ezdxf
import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QProgressDialog

from app.window.drawing_import import SizeQuestion
from app.window.frame_question import FrameQuestion
from app.window.running import drawing_run
from tests.app.window.hands import with_next_dialog


def _framed(path):
    """A sheet of A3 round one piece of 120 x 80 mm."""
    drawing = ezdxf.new(units=4)
    space = drawing.modelspace()
    space.add_lwpolyline([(-100, -100), (320, -100), (320, 197), (-100, 197)], close=True)
    space.add_lwpolyline([(0, 0), (120, 0), (120, 80), (0, 80)], close=True)
    drawing.saveas(path)
    return path


def _size(dialog) -> None:
    assert isinstance(dialog, SizeQuestion)
    dialog.accept()


@pytest.mark.parametrize(("choice", "area_mm2"), [(0, 9600.0), (1, 420.0 * 297.0 - 9600.0)])
def test_a_frame_is_asked_about_with_both_answers_shown(shell, tmp_path, choice, area_mm2) -> None:
    def frame(dialog) -> None:
        assert isinstance(dialog, FrameQuestion)
        dialog.group.button(choice).click()
        with_next_dialog(_size)
        dialog.accept()

    with_next_dialog(frame)
    assert shell.window.files.open_paths([_framed(tmp_path / "framed.dxf")])
    (piece,) = shell.session.style.pieces
    drawn = piece.drawings[shell.session.style.size_run.base]
    ring = drawn.outline_mm
    outer = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True))) / 2
    assert outer == pytest.approx(9600.0 if choice == 0 else 420.0 * 297.0)
    assert len(drawn.holes_mm) == choice


def _cancel() -> None:
    dialog = QApplication.activeModalWidget()
    if not isinstance(dialog, QProgressDialog):
        QTimer.singleShot(0, _cancel)
        return
    dialog.cancel()


def test_a_long_reading_is_shown_and_can_be_cancelled(shell, tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(drawing_run, "SMALL_BYTES", 0)
    QTimer.singleShot(0, _cancel)
    assert not shell.window.files.open_paths([_framed(tmp_path / "framed.dxf")])
    assert shell.session.document is None


def test_a_drawing_read_beside_the_window_is_the_same(shell, tmp_path, monkeypatch) -> None:
    path = _framed(tmp_path / "framed.dxf")
    here = drawing_run.read_with_progress(path, shell.window, chord_mm=0.05)
    monkeypatch.setattr(drawing_run, "SMALL_BYTES", 0)
    beside = drawing_run.read_with_progress(path, shell.window, chord_mm=0.05)
    assert here == beside and here is not None


def test_what_the_reader_refuses_beside_the_window_is_told_alike(shell, tmp_path, monkeypatch) -> None:
    from geometry.errors import DrawingError

    path = tmp_path / "none.dxf"
    path.write_text("no drawing")
    monkeypatch.setattr(drawing_run, "SMALL_BYTES", 0)
    with pytest.raises(DrawingError, match="none") as caught:
        drawing_run.read_with_progress(path, shell.window)
    assert caught.value.remedy
