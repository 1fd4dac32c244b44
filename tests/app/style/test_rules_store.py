"""The workshop's own rules: kept, completed, never silently replaced."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.errors import StyleFileError
from app.style.model import EdgeRuleData
from app.style.rules_store import load_rules, program_rules, rules_path, save_rules
from geometry.edge_kinds import EDGE_RULES, EdgeKind


@pytest.fixture(autouse=True)
def own_place(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("STAYPLY_CONFIG_DIR", str(tmp_path))


def test_without_rules_of_its_own_a_workshop_has_the_programs() -> None:
    rules = load_rules()
    assert rules == program_rules()
    assert set(rules.edge_rules) == set(EdgeKind)
    assert all(rules.edge_rules[kind].reason == EDGE_RULES[kind].reason for kind in EdgeKind)


def test_rules_are_kept_and_completed() -> None:
    own = EdgeRuleData(setback_mm=12.0, allowance_mm=18.0, reason="thick sole")
    save_rules(program_rules().model_copy(update={"gap_mm": 4.0, "edge_rules": {EdgeKind.LASTING: own}}))
    rules = load_rules()
    assert rules.gap_mm == 4.0
    assert rules.edge_rules[EdgeKind.LASTING] == own
    assert rules.edge_rules[EdgeKind.FOLDED] == program_rules().edge_rules[EdgeKind.FOLDED]


@pytest.mark.parametrize(
    "text", ["", "{", '{"gap_mm": "wide"}', '{"edge_rules": {"velcro": {"setback_mm": 1}}}']
)
def test_damaged_rules_are_an_error_and_stay_as_they_are(text: str) -> None:
    rules_path().write_text(text)
    with pytest.raises(StyleFileError, match=r"house-rules\.json: the house rules are damaged"):
        load_rules()
    assert rules_path().read_text() == text


def test_the_place_is_where_the_system_keeps_settings(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("STAYPLY_CONFIG_DIR")
    assert "stayply" in str(rules_path().parent)
    assert rules_path().is_absolute()
