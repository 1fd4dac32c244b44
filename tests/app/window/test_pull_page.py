"""The pull over the upper on the Cloth desk: solved beside the window, drawn in three cases."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.app.window.hands import SAMPLES


@pytest.fixture
def page(shell, qtbot):
    window = shell.window
    assert window.files.open_paths([SAMPLES["court"]])
    window.show_desk(1)
    QTest.keyClick(window, Qt.Key.Key_6, Qt.KeyboardModifier.AltModifier)
    desk = window.desks[1]
    assert desk.pages.page == "pull"
    qtbot.waitUntil(lambda: desk.pull.answer is not None, timeout=600_000)
    yield desk.pull
    desk.stop()


def test_three_cases_stand_side_by_side_with_their_figures(page) -> None:
    assert page.answer.refusal == "" and page.head.text().startswith("The pull over Vamp")
    texts = [page.words[case].text() for case in ("alone", "backed", "turned")]
    assert all("throat moves" in text and "toe end moves" in text for text in texts)
    assert len(set(texts)) == 3
    for view in page.views.values():
        picture = view.grab().toImage()
        colours = {
            picture.pixel(x, y) for x in range(0, picture.width(), 7) for y in range(0, picture.height(), 7)
        }
        assert len(colours) > 4, "bands of strain are drawn"


def test_the_slider_draws_and_solves_nothing(page) -> None:
    before = page.answer
    flat = page.views["alone"].grab().toImage()
    page.times.setValue(5)
    assert page.answer is before and page.times_told.text() == "5"
    assert page.views["alone"].grab().toImage() != flat


def test_another_way_of_pulling_is_solved_anew(page, qtbot) -> None:
    free = page.words["backed"].text()
    page.sides.setChecked(True)
    qtbot.waitUntil(lambda: page.answer is not None, timeout=600_000)
    assert page.words["backed"].text() != free


def test_a_style_of_unknown_stretch_says_what_is_missing(page, shell, qtbot) -> None:
    style = shell.session.style
    bare = style.model_copy(update={"upper_material": type(style.upper_material)()})
    shell.session.apply("bare", bare)
    qtbot.waitUntil(lambda: page.answer is not None and page.answer.style is bare, timeout=600_000)
    assert page.answer.field is None and page.head.text() == page.answer.refusal != ""
