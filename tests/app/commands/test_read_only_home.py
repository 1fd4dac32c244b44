"""A home that cannot be written costs the workshop's memory, never the work that was asked for."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from app.commands import cost, plan
from app.measures import METRIC
from app.style.file import load_style
from app.workshop.ledger import LedgerLay, LedgerRun

SANDAL = Path(__file__).parents[3] / "sample_styles" / "sandal" / "sandal.style.json"
RUN = LedgerRun(
    "run", "sandal", "drill", Decimal(1380), "face-up", 16, Decimal("0.0950"), Decimal("8.10"), "EUR",
    (LedgerLay("A", {"37": 4}, 4, 16, Decimal("3.240")),),
)  # fmt: skip


@pytest.fixture
def blocked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A place below a file, where no folder can be made: even for root, who may write everywhere."""
    file = tmp_path / "a file, no folder"
    file.write_text("", encoding="utf-8")
    for module in (plan, cost):
        monkeypatch.setattr(module, "ledger_path", lambda: file / "stayply" / "ledger.sqlite")
    return file


def test_a_plan_on_disk_stays_and_its_run_waits_to_be_entered(
    blocked: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    entered = plan._entered([RUN], no_history=False)
    assert [each["name"] for each in entered["runs_not_entered"]] == ["run"]
    (line,) = capsys.readouterr().err.splitlines()
    assert "not entered in the history" in line and str(blocked) in line


def test_the_quick_estimate_is_told_without_a_history(
    blocked: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = []
    monkeypatch.setattr(cost, "quick_object", lambda style, order, cloths, proven: asked.append(proven) or {})
    monkeypatch.setattr(cost, "quick_text", lambda payload, measures: "told")
    style = load_style(SANDAL)
    assert cost._quick(style, {"37": 4}, style.cloths, METRIC).text == "told"
    assert asked == [{cloth.id: None for cloth in style.cloths}]
    assert "the history cannot be read" in capsys.readouterr().err
