"""Window and commands tell the same figures: they ask the engine the same question, in the same words, and
what they show and write of one answer is the same to the digit.

The engine's process is a stand-in that answers every question at once with its first layout, so that no
figure hangs on a clock.
"""

from __future__ import annotations

import io
import json
from contextlib import redirect_stdout
from dataclasses import replace

import pytest
from openpyxl import load_workbook
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest

from app.__main__ import main
from app.cost.per_pair import Width
from app.lay.live import WORDS
from app.style.file import save_style
from app.window.running.command_run import CommandRun
from app.words.carried import with_words
from app.workshop.ledger import Ledger, ledger_path
from nesting.bound import lower_bound
from nesting.files.wire import Told, problem_from_json, told_to_json
from nesting.free import first_layout

ORDER = {"36": 3, "37": 5}
PAIRS = "36:3,37:5"
SEARCHED_S = 9.0


class AtOnce:
    """An engine's process that answers its one job at once."""

    process_id, last_words = 0, ""

    def __init__(self, job):
        problem = problem_from_json(job["problem"])
        lay = first_layout.solve(problem, seed=job["seed"])
        found = replace(lay, seconds=SEARCHED_S, searched_s=SEARCHED_S, bound=lower_bound(problem))
        self._told = [told_to_json(Told("done", SEARCHED_S, lay=found))]

    def event(self, wait_s):
        return self._told.pop() if self._told else None

    def kill(self):
        pass


@pytest.fixture
def asked(monkeypatch):
    """What the engine is asked, by window and commands alike."""
    jobs: list[dict[str, object]] = []

    def answer(job):
        jobs.append(json.loads(json.dumps(job)))
        return AtOnce(jobs[-1])

    monkeypatch.setattr("nesting.engine.run.asked", answer)
    monkeypatch.setattr("nesting.engine.run.give_back", lambda child: None)
    for command in ("lay", "cost"):
        monkeypatch.setattr(f"app.commands.{command}.prepare", lambda: None)
    return jobs


@pytest.fixture
def told(monkeypatch, tmp_path_factory):
    """Run a command as a person does, in a workshop of its own; returns its object."""

    def run(*words):
        monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path_factory.mktemp("workshop")))
        out = io.StringIO()
        with redirect_stdout(out):
            status = main([str(word) for word in (*words, "--json")])
        assert status == 0
        return json.loads(out.getvalue())

    return run


@pytest.fixture
def window(shell, monkeypatch, tmp_path, tmp_path_factory, plain_style, told):
    """The window with a small style and its order; its commands run in this process."""

    def start(run, command, style, words, *, expected_s=0.0):
        copy = tmp_path / "shown.style.json"
        save_style(style, copy)
        done = told(command, copy, *words)
        QTimer.singleShot(0, run, lambda: run.done.emit(with_words(done, done.pop(WORDS, {}))))

    monkeypatch.setattr(CommandRun, "start", start)
    path = tmp_path / "plain.style.json"
    save_style(plain_style.model_copy(update={"order": ORDER}), path)
    assert shell.window.files.open_paths([path])
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path_factory.mktemp("workshop")))
    return shell.window


def same_files(mine, theirs, but=()):
    """Compare two folders file by file, byte by byte; returns how many are alike."""
    names = sorted(str(path.relative_to(mine)) for path in mine.rglob("*") if path.is_file())
    assert names == sorted(str(path.relative_to(theirs)) for path in theirs.rglob("*") if path.is_file())
    alike = [name for name in names if not name.endswith(tuple(but))]
    for name in alike:
        assert (mine / name).read_bytes() == (theirs / name).read_bytes(), name
    return len(alike)


def test_a_filled_roll_is_the_commands_lay_with_the_commands_papers(
    window, qtbot, monkeypatch, tmp_path, asked, told
):
    window.show_desk(2)
    desk = window.desk
    shown: list[str] = []
    desk.facts.connect(shown.append)
    desk.take_order()
    with qtbot.waitSignal(desk.run.ended):
        desk.fill()
    monkeypatch.setattr(
        "app.window.desks.lay.lay_out.QFileDialog.getExistingDirectory", lambda *_: str(tmp_path)
    )
    desk.out.export()
    by_command = told("lay", tmp_path / "plain.style.json", "--pairs", PAIRS, "-o", tmp_path / "command")
    by_window, by_itself = ({**job, "kept_in": None} for job in asked)
    assert by_window == by_itself
    assert f"{by_command['length_mm'] / 1000:.3f} m" in shown[-1]
    assert f"{100 * by_command['yield']:.1f} %" in shown[-1]
    assert same_files(tmp_path / "lay-1", tmp_path / "command") > 5


def test_widths_costed_one_by_one_are_the_commands_with_its_papers(
    window, qtbot, monkeypatch, tmp_path, asked, told
):
    # how many pairs lie in the lay hangs on the width
    monkeypatch.setattr("app.cost.per_pair.SPREAD_MM", 150.0)
    window.show_desk(3)
    desk = window.desk
    for row in range(desk.side.widths.rowCount()):
        ticked = Qt.CheckState.Checked if row < 2 else Qt.CheckState.Unchecked
        desk.side.widths.cell(row, 0).setCheckState(ticked)
    with qtbot.waitSignal(desk.counting.widths.finished):
        QTest.keyClick(window, Qt.Key.Key_F9)
    desk.out.export(tmp_path / "window")
    widths = ",".join(sorted(repr(width.width_mm) for width in desk.side.widths.widths[:2]))
    words = ["--cloth", "twill-140", "--pairs", PAIRS, "--widths", widths]
    by_command = told("cost", tmp_path / "plain.style.json", *words, "-o", tmp_path / "command")
    shown = {row.split("\t")[0]: row.split("\t") for row in desk.results.widths.as_text().splitlines()[1:]}
    assert len(by_command["widths"]) == len(shown) == 2
    for row in by_command["widths"]:
        cells = shown[desk.side.widths.name(Width(row["width_mm"], row["usable_width_mm"]))]
        assert cells[4] == f"{100 * row['utilisation']:.1f} %" and cells[7] == row["cost_per_pair"]
        assert cells[5] == f"{row['metres_per_pair']:.4f}"
    sizes = desk.results.sizes.as_text().splitlines()[1:]
    assert [size.split("\t")[7] for size in sizes[:-1]] == [row["cost"] for row in by_command["per_pair"]]
    assert sizes[-1].split("\t")[8] == by_command["total"]["cost"]
    assert same_files(tmp_path / "window", tmp_path / "command") == 3


def test_a_planned_run_is_the_commands_with_its_papers(window, qtbot, tmp_path, asked, told):
    window.show_desk(3)
    desk = window.desk
    QTest.keyClick(window, Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)
    page = desk.plan_page
    for name, value in (("table", 900), ("plies", 4), ("seconds", 3600), ("setup", 2.5)):
        page.fields[name].set_value(value)
    with qtbot.waitSignal(page.run.done):
        QTest.keyClick(window, Qt.Key.Key_F10)
    page.export(tmp_path / "window")
    history = Ledger(ledger_path()).history()
    assert [record.name for record in history] == [window.session.style.name], (
        "an exported plan stands in the history"
    )
    words = ["--table", "900", "--plies", "4", "--setup", "2.5", "--seconds", "3600"]
    by_command = told(
        "plan", tmp_path / "plain.style.json", "--pairs", PAIRS, *words, "-o", tmp_path / "command"
    )
    assert page.payload["lays"] == by_command["lays"] and page.payload["cost"] == by_command["cost"]
    assert same_files(tmp_path / "window", tmp_path / "command", but=("plan.json",)) > 5
    # the papers bear the name given, agree on the cloth, and hold amounts as numbers
    (ticket,) = (tmp_path / "window").rglob("cut-ticket.xlsx")
    lays = list(load_workbook(ticket)["Lays"].iter_rows(values_only=True))
    spread_m = dict(zip(lays[0], lays[1], strict=True))["spread m of twill-140"]
    book = load_workbook(tmp_path / "window" / "run-plan.xlsx")
    assert book["Cloth"]["B2"].value == pytest.approx(spread_m, abs=0.001)
    assert all(isinstance(row[1], float | int) for row in book["Cost"].iter_rows(min_row=2, values_only=True))
    assert load_workbook(ticket)["Ticket"]["B2"].value == "lay A", "no folder's name"
