"""An edge kind is known everywhere it is shown, ruled or drawn, or nowhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.papers.layout import pens
from app.words import in_language, say
from geometry.edge_kinds import EDGE_KINDS, EDGE_RULES, EdgeKind

DOCS = Path(__file__).parents[2] / "docs"


def test_the_table_holds_every_kind_with_its_rule_reason_and_source() -> None:
    assert list(EDGE_KINDS) == list(EdgeKind)
    assert set(EDGE_RULES) == set(EdgeKind)
    assert all(rule.reason and rule.source for rule in EDGE_RULES.values())


def test_keys_and_meanings_are_each_of_one_kind() -> None:
    for texts in (
        [entry.key for entry in EDGE_KINDS.values()],
        [entry.meaning for entry in EDGE_KINDS.values()],
    ):
        assert len(set(texts)) == len(texts) and all(texts)


def test_every_kind_has_its_own_line_on_paper_and_on_the_screen() -> None:
    """A copy without colour still tells them apart."""
    assert set(pens.EDGE) == set(EdgeKind)
    paper = [(pen.width_mm, pen.dash_mm) for pen in pens.EDGE.values()]
    screen = [(entry.screen.width_px, entry.screen.dash) for entry in EDGE_KINDS.values()]
    assert len(set(paper)) == len(paper) and len(set(screen)) == len(screen)


def test_the_words_of_every_kind_are_listed_for_translation() -> None:
    pytest.importorskip("PySide6.QtGui", exc_type=ImportError)
    from app.window.wording.edge_words import LISTED, kind_action

    texts = {
        text
        for kind, entry in EDGE_KINDS.items()
        for text in (kind.value.capitalize(), entry.meaning, kind_action(kind))
    }
    assert texts == LISTED


def test_papers_have_italian_words_for_every_kind_and_reason() -> None:
    with in_language("it"):
        same = [
            text for kind in EdgeKind for text in (kind.value, EDGE_RULES[kind].reason) if say(text) == text
        ]
    assert same == []


@pytest.mark.parametrize("page", ["formats", "trade", "window"])
def test_every_kind_stands_in_the_pages_that_list_them(page: str) -> None:
    text = (DOCS / f"{page}.md").read_text("utf-8")
    assert not [kind.value for kind in EdgeKind if f"`{kind}`" not in text and f"| {kind} |" not in text]
