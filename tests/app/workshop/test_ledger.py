"""What was planned and used is kept, whoever writes and whatever dies."""

import os
import signal
import sqlite3
import subprocess
import sys
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from app.errors import DatabaseError, OrderError
from app.workshop.ledger import Ledger, LedgerLay, LedgerRun
from tests.app.workshop.killed_writer import DIES


def a_run(name="week 12", pairs=40, metres="3.24"):
    lay = LedgerLay("A", {"37": 20, "38": 20}, 1, pairs, Decimal(metres))
    return LedgerRun(
        name,
        "court",
        "drill",
        Decimal("1380"),
        "face-up",
        pairs,
        Decimal("0.0950"),
        Decimal("8.10"),
        "EUR",
        (lay,),
    )


def test_a_run_is_found_again_with_its_variance(tmp_path):
    ledger = Ledger(tmp_path / "ledger.sqlite")
    number = ledger.plan(a_run())
    assert ledger.run(number).used_m is None
    record = ledger.used(number, "A", Decimal("3.40"), "one ply cut again")
    assert record.variance_m == Decimal("0.16")
    assert ledger.run(number).used_m == Decimal("3.40")
    assert [run.name for run in ledger.history(style="court")] == ["week 12"]
    assert ledger.history(style="derby") == ()
    assert ledger.history(most=1) == ledger.history()[-1:], "the last ones, for a screen"


def test_a_plan_entered_twice_is_one_run_until_something_of_it_is_cut(tmp_path):
    ledger = Ledger(tmp_path / "ledger.sqlite")
    number = ledger.plan(a_run())
    assert ledger.plan(a_run()) == number
    assert ledger.plan(a_run(metres="3.25")) != number
    ledger.used(number, "A", Decimal("3.40"))
    assert ledger.plan(a_run()) > number
    assert len(ledger.history()) == 3


def test_a_second_entry_corrects_the_first(tmp_path):
    ledger = Ledger(tmp_path / "ledger.sqlite")
    number = ledger.plan(a_run())
    ledger.used(number, "A", Decimal("34.0"))
    assert ledger.used(number, "A", Decimal("3.40")).used_m == Decimal("3.40")


def test_how_good_the_quick_estimate_proved(tmp_path):
    """2 m2 of roll 1.38 m wide for 40 pairs: nested 1.1, used 3.312 x 1.38 / 40 = 0.1142640 over 0.1."""
    ledger = Ledger(tmp_path / "ledger.sqlite")
    assert ledger.proven() is None
    ledger.plan(a_run())
    assert ledger.proven() is None, "a run entered without an estimate says nothing"
    number = ledger.plan(
        replace(a_run(), quick_m2_per_pair=Decimal("0.1"), nested_m2_per_pair=Decimal("0.11"))
    )
    proven = ledger.proven("drill")
    assert (proven.factor, proven.runs, proven.cut) == (pytest.approx(1.1), 1, False)
    ledger.used(number, "A", Decimal("3.312"))
    record = ledger.run(number)
    assert record.used_m2_per_pair == Decimal("0.114264")
    assert ledger.proven().factor == pytest.approx(1.14264) and ledger.proven().cut
    assert ledger.proven("felt") is None


def test_a_history_of_before_the_quick_estimate_is_read_on(tmp_path):
    path = tmp_path / "ledger.sqlite"
    Ledger(path).plan(a_run())
    with sqlite3.connect(path) as db:
        db.execute("DROP TABLE quick")
        db.execute("PRAGMA user_version = 1")
    assert Ledger(path).history()[0].quick_m2_per_pair is None
    Ledger(path).plan(replace(a_run(), quick_m2_per_pair=Decimal("0.1"), nested_m2_per_pair=Decimal("0.11")))
    assert Ledger(path).proven().factor == pytest.approx(1.1)


def test_a_lay_never_planned_is_refused_with_the_lays_there_are(tmp_path):
    ledger = Ledger(tmp_path / "ledger.sqlite")
    number = ledger.plan(a_run())
    with pytest.raises(OrderError, match="its lays are A"):
        ledger.used(number, "B", Decimal("1"))
    with pytest.raises(OrderError, match="no run 99"):
        ledger.run(99)
    with pytest.raises(OrderError, match="-1"):
        ledger.used(number, "A", Decimal("-1"))


def test_an_estimate_learns_from_what_was_used(tmp_path):
    ledger = Ledger(tmp_path / "ledger.sqlite")
    with pytest.raises(OrderError, match="no run"):
        ledger.estimate(0.1)
    for metres in ("3.20", "3.40"):
        ledger.used(ledger.plan(a_run()), "A", Decimal(metres))
    estimate = ledger.estimate(0.2)
    ratio = [float(Decimal(m) * Decimal("1.38")) / (0.095 * 40) for m in ("3.20", "3.40")]
    assert estimate.m2_per_pair == pytest.approx(0.2 * sum(ratio) / 2)
    assert estimate.low_m2 < estimate.m2_per_pair < estimate.high_m2
    assert estimate.runs == 2


def test_a_damaged_file_and_a_newer_one_are_named(tmp_path):
    path = tmp_path / "ledger.sqlite"
    path.write_bytes(b"this is no database, though long enough to look like a file" * 50)
    with pytest.raises(DatabaseError, match=r"ledger\.sqlite"):
        Ledger(path)
    other = tmp_path / "newer.sqlite"
    ledger = Ledger(other)
    with ledger._db.write() as db:
        db.execute("PRAGMA user_version = 9")
    with pytest.raises(DatabaseError, match="newer program"):
        Ledger(other)


WRITER = """
import sys
from decimal import Decimal
from pathlib import Path
from app.workshop.ledger import Ledger, LedgerLay, LedgerRun
ledger = Ledger(Path(sys.argv[1]))
for i in range(int(sys.argv[2])):
    lay = LedgerLay("A", {"37": 40}, 1, 40, Decimal("3.24"))
    run = LedgerRun(sys.argv[3], "court", "drill", Decimal(1380), "face-up", 40, Decimal("0.095"),
                     Decimal("8.10"), "EUR", (lay,))
    number = ledger.plan(run)
    ledger.used(number, "A", Decimal("3.3"))
    print(number, flush=True)
    said = [number]
"""


def writer(path, count, name, before="", *more):
    root = str(Path(__file__).parents[3])
    return subprocess.Popen(
        [sys.executable, "-c", before + WRITER, str(path), str(count), name, *more],
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": root},
    )


def test_two_users_write_at_once_and_nothing_is_lost(tmp_path):
    path = tmp_path / "ledger.sqlite"
    users = [writer(path, 15, name) for name in ("one", "two")]
    said = [user.communicate(timeout=600)[0].split() for user in users]
    assert [user.returncode for user in users] == [0, 0]
    runs = Ledger(path).history()
    assert sorted(str(run.id) for run in runs) == sorted(said[0] + said[1])
    assert all(run.used_m == Decimal("3.3") for run in runs)


@pytest.mark.parametrize("statement", [0, 2, 5, 30])
def test_killed_in_the_middle_nothing_that_was_said_is_lost(tmp_path, statement):
    path = tmp_path / "ledger.sqlite"
    user = writer(path, 100000, "victim", DIES, str(statement))
    said = user.communicate(timeout=600)[0].splitlines(keepends=True)
    assert user.returncode == -signal.SIGKILL and said[0].strip() == "1"
    runs = {str(run.id): run for run in Ledger(path).history()}
    for line in (line.strip() for line in said if line.endswith("\n")):
        assert runs[line].used_m == Decimal("3.3")
    assert all(len(run.lays) == 1 for run in runs.values())


def test_what_was_used_is_found_by_an_index(tmp_path: Path) -> None:
    """Ten thousand runs must not be read through for one: SQLite says by which way it looks."""
    path = tmp_path / "ledger.sqlite"
    Ledger(path)
    with sqlite3.connect(path) as db:
        plan = db.execute("EXPLAIN QUERY PLAN SELECT MAX(id) FROM used WHERE run_id=1 AND lay='A'").fetchall()
    db.close()
    assert all("INDEX used_lay" in row[-1] for row in plan if "used" in row[-1])
