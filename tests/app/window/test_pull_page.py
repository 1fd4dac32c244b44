"""The pull over the upper on the Cloth desk: solved beside the window, drawn in three cases."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.errors import UsageError
from app.window.printing.offer import Choice
from tests.app.window.hands import SAMPLES


@pytest.fixture
def page(shell, qtbot):
    window = shell.window
    assert window.files.open_paths([SAMPLES["court"]])
    window.show_desk(1)
    QTest.keyClick(window, Qt.Key.Key_6, Qt.KeyboardModifier.AltModifier)
    desk = window.desks[1]
    assert desk.pages.page == "pull"
    solved(desk.pull, qtbot)
    yield desk.pull
    desk.stop()


def solved(page, qtbot) -> None:
    qtbot.waitUntil(lambda: not page.solver.waiting)


def test_three_cases_stand_side_by_side_with_their_figures(page) -> None:
    assert page.solver.answer.refusal == "" and page.head.text().startswith("The pull over Vamp")
    assert "halving them moved the throat" in page.head.text()
    texts = [page.words[case].text() for case in ("alone", "backed", "turned")]
    assert all("throat moves" in text and "by the line" in text for text in texts)
    assert len(set(texts)) == 3 and page.figures.rowCount() == 3
    for view in page.views.values():
        picture = view.grab().toImage()
        colours = {
            picture.pixel(x, y) for x in range(0, picture.width(), 7) for y in range(0, picture.height(), 7)
        }
        assert len(colours) > 4, "bands of strain are drawn"


def test_the_slider_draws_and_solves_nothing(page) -> None:
    before = page.solver.answer
    flat = page.views["alone"].grab().toImage()
    page.times.setValue(5)
    assert page.solver.answer is before and page.times_told.text() == "5"
    assert page.views["alone"].grab().toImage() != flat


def test_another_way_of_pulling_is_solved_anew(page, qtbot) -> None:
    free = page.words["backed"].text()
    page.sides.setChecked(True)
    solved(page, qtbot)
    assert page.words["backed"].text() != free


def test_places_prone_to_peel_are_listed_as_the_map_numbers_them(page) -> None:
    places = page.solver.answer.pulled.field.case("backed").peel
    assert page.peel.rowCount() == len(places) > 0
    assert page.peel.item(0, 0).text() == "(1)" and page.peel.item(0, 1).text() == "Vamp"
    assert page.peel.item(0, 4).text() == f"{places[0].force_n_per_mm:.2f}"


def test_other_cloths_are_further_cases_and_take_the_third_picture(page, qtbot) -> None:
    page.others.setChecked(True)
    solved(page, qtbot)
    assert page.figures.rowCount() == 4 and page.third.count() == 2
    turned = page.words["turned"].text()
    page.third.setCurrentIndex(1)
    page.third.activated.emit(1)
    assert page.third.currentText().startswith("Polyester") and page.words["turned"].text() != turned


def test_large_strain_and_wrinkles_are_told_where_they_are_asked_for(page, qtbot) -> None:
    assert "large strain" not in page.words["alone"].text()
    page.large.setChecked(True)
    solved(page, qtbot)
    text = page.words["alone"].text()
    assert "large strain: " in text and "tension field" in text


def test_work_is_stopped_and_begun_again(page, qtbot) -> None:
    page.sides.setChecked(True)
    QTest.mouseClick(page.stop_button, Qt.MouseButton.LeftButton)
    solved(page, qtbot)
    assert "stopped" in page.head.text() and not page.solver.answer.asked.sides_held
    QTest.mouseClick(page.stop_button, Qt.MouseButton.LeftButton)
    solved(page, qtbot)
    assert page.solver.answer.asked.sides_held and page.solver.answer.pulled is not None


def test_the_hold_page_says_what_the_field_says(page, shell, qtbot) -> None:
    desk = shell.window.desks[1]
    QTest.keyClick(shell.window, Qt.Key.Key_3, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(lambda: not desk.judge.waiting)
    text = desk.hold.words.text()
    assert "The field puts the throat of Vamp elsewhere" in text and "by the line" in text


def test_the_field_sheet_is_printed_as_the_page_shows_it(page, shell) -> None:
    papers = {paper.file: paper for paper in shell.window.desks[1].papers()}
    choice = Choice("A3", ("37",), ("left",))
    assert len(papers["field-sheet"].pages(choice)) == 1
    shell.session.apply("pull", shell.session.style.model_copy(update={"pull_n_per_mm": 1.5}))
    with pytest.raises(UsageError, match="not worked out"):
        papers["field-sheet"].pages(choice)


def test_a_style_of_unknown_stretch_says_what_is_missing(page, shell, qtbot) -> None:
    style = shell.session.style
    bare = style.model_copy(update={"upper_material": type(style.upper_material)()})
    shell.session.apply("bare", bare)
    solved(page, qtbot)
    assert page.solver.answer.pulled is None and "not known" in page.head.text()
