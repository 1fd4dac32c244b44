"""An edge kind is known everywhere it is shown, ruled or drawn, or nowhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.papers.layout import pens
from geometry.backing.house_rules import EDGE_RULES
from geometry.piece import EdgeKind

DOCS = Path(__file__).parents[2] / "docs"


def test_every_kind_has_its_rule_and_the_reason_for_it() -> None:
    assert set(EDGE_RULES) == set(EdgeKind)
    assert all(rule.reason for rule in EDGE_RULES.values())


def test_every_kind_has_its_own_dash_on_paper() -> None:
    assert set(pens.EDGE) == set(EdgeKind)
    looks = [(pen.width_mm, pen.dash_mm) for pen in pens.EDGE.values()]
    assert len(set(looks)) == len(looks), "a copy without colour still tells them apart"


def test_every_kind_has_its_mark_key_and_word_in_the_window() -> None:
    pytest.importorskip("PySide6.QtGui", exc_type=ImportError)
    from app.window.widgets.marks import MARKS
    from app.window.wording.words import kind_meaning, kind_name

    assert set(MARKS) == set(EdgeKind)
    keys = [mark.key for mark in MARKS.values()]
    assert len(set(keys)) == len(keys) and all(keys)
    for texts in (
        [kind_name(kind) for kind in EdgeKind],
        [kind_meaning(kind) for kind in EdgeKind],
        [mark.action for mark in MARKS.values()],
    ):
        assert len(set(texts)) == len(texts) and all(texts)


@pytest.mark.parametrize("page", ["formats", "trade", "window"])
def test_every_kind_stands_in_the_pages_that_list_them(page: str) -> None:
    text = (DOCS / f"{page}.md").read_text("utf-8")
    assert not [kind.value for kind in EdgeKind if f"`{kind}`" not in text and f"| {kind} |" not in text]
