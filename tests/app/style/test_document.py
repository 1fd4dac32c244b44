"""The open style: one step an edit, undo and redo by name, and a truthful saved mark."""

from pathlib import Path

import pytest

from app.style import edits
from app.style.document import Document
from app.style.file import load_style

DERBY = Path(__file__).parents[3] / "sample_styles/derby/derby.style.json"


@pytest.fixture
def document() -> Document:
    return Document(load_style(DERBY), DERBY)


def turned(document: Document, angle: float):
    return edits.set_axis(document.style, "Vamp", angle)


def test_an_edit_is_one_step_and_undo_gives_the_very_value_back(document):
    before = document.style
    document.apply("Turn", turned(document, 10))
    assert document.undo_label == "Turn" and document.dirty
    document.undo()
    assert document.style is before and not document.dirty and document.redo_label == "Turn"
    document.redo()
    assert document.style.piece("Vamp").pull_axis.axis_deg == 10


def test_an_edit_that_changes_nothing_leaves_no_step(document):
    assert not document.apply("Nothing", edits.set_per_shoe(document.style, "Vamp", 1))
    assert document.undo_label == "" and not document.dirty


def test_a_new_edit_forgets_what_was_undone(document):
    document.apply("a", turned(document, 10))
    document.undo()
    document.apply("b", turned(document, 20))
    assert document.redo_label == "" and document.labels == ("b",)


def test_strokes_of_one_gesture_are_one_step(document):
    before = document.style
    for angle in (1, 2, 3):
        document.apply("Turn", turned(document, angle), merge="axis")
    assert document.labels == ("Turn",)
    document.seal()
    document.apply("Turn", turned(document, 4), merge="axis")
    assert document.labels == ("Turn", "Turn")
    document.undo()
    document.undo()
    assert document.style is before


def test_a_preview_is_shown_but_leaves_no_step_and_does_not_dirty(document):
    document.preview(turned(document, 33))
    assert document.shown.piece("Vamp").pull_axis.axis_deg == 33
    assert not document.dirty and document.undo_label == ""
    document.preview(None)
    assert document.shown is document.style


def test_saving_an_older_value_leaves_the_newer_one_unsaved(document, tmp_path):
    document.apply("a", turned(document, 10))
    saved = document.style
    document.apply("b", turned(document, 20))
    document.mark_saved(tmp_path / "x", saved)
    assert document.dirty
    document.undo()
    assert not document.dirty


def test_watchers_hear_of_every_change(document):
    heard = []
    document.watch(lambda: heard.append(document.shown.piece("Vamp").pull_axis.axis_deg))
    document.preview(turned(document, 5))
    document.apply("Turn", turned(document, 6))
    document.undo()
    assert heard == [5, 6, 0]
