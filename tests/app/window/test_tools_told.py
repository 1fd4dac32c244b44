"""Whoever learns the Draft desk finds every tool of it: in the tour, in the list of keys, in the how-to."""

import re

import pytest

from app.window.desks.draft.draft_actions import DRAFT
from app.window.desks.draft.drawing.specs import DRAW
from app.window.desks.draft.whole.specs import PAGES, WHOLE
from app.window.shell.shell_actions import SHELL
from app.window.shell.tour import stops
from tests.app.window.hands import ROOT

OTHERS = {"draft.breaks", "draft.hold", "draft.measure", "draft.page_sizes", "draft.page_measures"}
FILES = {"Ctrl+Shift+N", "Ctrl+Shift+T"}
TOOLS = {spec.id: spec for spec in (*DRAW, *WHOLE)}
TOOLS |= {spec.id: spec for spec in (*DRAFT, *PAGES) if spec.id in OTHERS}
TOOLS |= {spec.id: spec for spec in SHELL if FILES & set(spec.keys)}


def named(key: str, text: str) -> bool:
    """Whether a text names a key: not as the last letter of a longer one."""
    return re.search(rf"(?<![\w+]){re.escape(key)}(?![\w+])", text) is not None


@pytest.fixture(scope="module")
def told(qapp) -> dict[str, str]:
    docs = ROOT / "docs"
    return {
        "tour": " ".join(stop.text for stop in stops() if stop.desk == "draft"),
        "keys": (docs / "window.md").read_text(encoding="utf-8").split("<!-- keys -->")[1],
        "how-to": (docs / "howto-pattern-maker.md").read_text(encoding="utf-8"),
    }


@pytest.mark.parametrize("place", ["tour", "keys", "how-to"])
def test_every_drawing_tool_is_told_of(told, place) -> None:
    assert len(TOOLS) == len(DRAW) + len(WHOLE) + len(OTHERS) + len(FILES)
    missing = {spec.text: spec.keys[0] for spec in TOOLS.values() if not named(spec.keys[0], told[place])}
    assert not missing, f"not in the {place}"


def test_the_how_to_sends_nobody_into_a_file(told) -> None:
    """What is drawn is drawn in the window or by a command; no JSON is written by hand to draft a shoe."""
    spoken = told["how-to"].lower()
    assert not re.search(
        r"text editor|edit(ing)? (the|a) (json|style)? ?file|open the (json|style file)", spoken
    )
