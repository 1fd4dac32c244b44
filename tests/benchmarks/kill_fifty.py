"""Kill planning and history writing at random moments, fifty times; nothing may be lost.

    nice -n 5 .venv/bin/python tests/benchmarks/kill_fifty.py --kills 50 --seed 1

Half of the victims are ``plan`` commands on one output folder, a quarter ``used`` entries and a
quarter processes that enter plans and use as fast as they can; each gets kill -9 at a moment drawn
evenly over the time it takes undisturbed. After each death it is checked that

* every file of the output folder is whole: plan.json names lays that are there and verify again,
  lays kept for going on parse, and none that was there before is gone;
* no engine process outlives its parent;
* the history opens, SQLite finds it sound, every run has all its lays, and every entry whose
  writer said so is there;

and at the end that the interrupted plan goes on and is entered once. Prints one line a kind; ends
with status 1 at the first loss. By hand, not a test: it takes minutes.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from app.plan.job import WORK_FOLDER  # noqa: E402
from app.workshop.ledger import Ledger  # noqa: E402
from nesting.files import lay_file  # noqa: E402
from nesting.verify import verify_document  # noqa: E402

STYLE = ROOT / "sample_styles" / "court" / "court.style.json"
PLAN = ["plan", str(STYLE), "--pairs", "36:5,37:9,38:6", "--table", "900", "--plies", "4", "--setup", "6"]
PLAN += ["--seconds", "5", "--json"]

WRITER = """
import sys
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from app.workshop.ledger import Ledger, PlannedLay, PlannedRun
ledger = Ledger(Path(sys.argv[1]))
number = 0
while True:
    number += 1
    lays = tuple(PlannedLay(name, {"37": number}, 4, 4 * number, Decimal("3.240")) for name in "ABC")
    run = PlannedRun(f"{sys.argv[2]}-{number}", "writer", "drill", Decimal(1380), "face-up", 12 * number,
                     Decimal("0.0950"), Decimal("8.10"), "EUR", lays)
    entered = ledger.plan(run)
    print("plan", entered, flush=True)
    ledger.used(entered, "A", Decimal("3.300"))
    print("used", entered, flush=True)
"""


@dataclass
class Watch:
    """What must still be there: entries that their writers told of."""

    data: Path
    out: Path
    runs: set[int] = field(default_factory=set)
    used: dict[tuple[int, str], list[Decimal]] = field(default_factory=dict)
    stored: set[str] = field(default_factory=set)

    @property
    def environment(self) -> dict[str, str]:
        return os.environ | {"PYTHONPATH": str(ROOT), "STAYPLY_DATA_DIR": str(self.data)}

    @property
    def ledger(self) -> Path:
        return self.data / "ledger.sqlite"

    def check(self) -> None:
        """Raise SystemExit, saying what was lost."""
        self._check_history()
        self._check_folder()

    def _check_history(self) -> None:
        if not self.ledger.exists():
            _lost_if(bool(self.runs or self.used), "the history is gone")
            return
        with sqlite3.connect(self.ledger) as db:
            sound = db.execute("PRAGMA integrity_check").fetchone()[0]
            _lost_if(sound != "ok", f"SQLite: {sound}")
            entries: dict[tuple[int, str], list[Decimal]] = {}
            for run, lay, metres in db.execute("SELECT run_id, lay, metres FROM used ORDER BY id"):
                entries.setdefault((run, lay), []).append(Decimal(metres))
        db.close()
        records = {record.id: record for record in Ledger(self.ledger).history()}
        _lost_if(not self.runs <= set(records), f"runs {self.runs - set(records)}")
        _lost_if(any(not record.lays for record in records.values()), "a run without its lays")
        writers = [record for record in records.values() if record.style == "writer"]
        _lost_if(any(len(record.lays) != 3 for record in writers), "a lay of a run")
        for key, told in self.used.items():
            left = list(entries.get(key, []))
            for metres in told:
                _lost_if(metres not in left, f"{metres} m used for run {key[0]} lay {key[1]}")
                left.remove(metres)

    def _check_folder(self) -> None:
        work = self.out / WORK_FOLDER
        stored = {path.name for path in work.glob("*.json") if not path.name.startswith(".")}
        for name in stored:
            _lost_if(not json.loads((work / name).read_text("utf-8"))["lay"]["placements"], f"lay {name}")
        plan = self.out / "plan.json"
        if plan.exists():
            payload = json.loads(plan.read_text("utf-8"))
            for lay in payload["lays"]:
                document = lay_file.read(self.out / lay["lay_file"])
                _lost_if(not verify_document(document).ok, f"lay {lay['name']} does not verify")
                _lost_if(document["plies"] != lay["plies"], f"lay {lay['name']} is of another plan")
        else:
            _lost_if(not self.stored <= stored, f"nested lays {self.stored - stored}")
        self.stored = stored


def main() -> None:
    """Kill, check, count."""
    parser = argparse.ArgumentParser(description="kill planning and history writing at random moments")
    parser.add_argument("--kills", type=int, default=50)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    chance = random.Random(options.seed)
    kinds = [("plan", options.kills // 2), ("used", options.kills // 4)]
    kinds.append(("writer", options.kills - sum(count for _, count in kinds)))
    with tempfile.TemporaryDirectory(prefix="stayply-kill-") as folder:
        for kind, count in kinds:
            watch = Watch(Path(folder) / f"data-{kind}", Path(folder) / f"out-{kind}")
            whole_s = 4.0 if kind == "writer" else _undisturbed(kind, watch)
            begun = time.monotonic()
            hit = sum(_kill(kind, watch, chance.uniform(0.05, whole_s), n) for n in range(count))
            ends = _finish(kind, watch)
            print(
                f"{kind}: {count} kills within {whole_s:.1f} s, {hit} before the end; nothing lost; {ends} "
                f"({time.monotonic() - begun:.0f} s)",
                flush=True,
            )


def _words(kind: str, watch: Watch, number: int) -> list[str]:
    if kind == "plan":
        return [sys.executable, "-m", "app", *PLAN, "-o", str(watch.out)]
    if kind == "used":
        return [sys.executable, "-m", "app", "used", "1", "A", f"{number}.25", "--json"]
    return [sys.executable, "-c", WRITER, str(watch.ledger), f"w{number}"]


def _undisturbed(kind: str, watch: Watch) -> float:
    """Return the time that the command takes, and leave an empty folder or a run to enter use for."""
    if kind == "used":
        words = _words("plan", watch, 0)
        subprocess.run(words, env=watch.environment, capture_output=True, check=True)
        watch.runs.add(1)
    begun = time.monotonic()
    done = subprocess.run(_words(kind, watch, 0), env=watch.environment, capture_output=True, check=True)
    took = time.monotonic() - begun
    if kind == "plan":  # the plan that is killed begins from nothing
        watch.out = watch.out.with_name("out-again")
        watch.runs |= set(json.loads(done.stdout)["runs"])
    else:
        watch.used.setdefault((1, "A"), []).append(Decimal("0.25"))
    return took


def _kill(kind: str, watch: Watch, after_s: float, number: int) -> bool:
    victim = subprocess.Popen(
        _words(kind, watch, number + 1),
        env=watch.environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        start_new_session=True,
    )
    try:
        said, _ = victim.communicate(timeout=after_s)
        early = False
    except subprocess.TimeoutExpired:
        victim.send_signal(signal.SIGKILL)
        early = True
        _no_orphans(victim.pid)
        said, _ = victim.communicate()
    _note(kind, watch, said, number + 1)
    watch.check()
    return early


def _note(kind: str, watch: Watch, said: str, number: int) -> None:
    """Remember what the process told before it died: whole lines only."""
    if kind == "writer":
        for line in said[: said.rfind("\n") + 1].splitlines():
            what, run = line.split()
            watch.runs.add(int(run))
            if what == "used":
                watch.used.setdefault((int(run), "A"), []).append(Decimal("3.300"))
    elif said.endswith("\n"):
        if kind == "used":
            watch.used.setdefault((1, "A"), []).append(Decimal(f"{number}.25"))
        else:
            watch.runs |= set(json.loads(said)["runs"])


def _no_orphans(group: int) -> None:
    """Wait until the victim's whole process group is gone; the engine ends with its parent."""
    for _ in range(60):
        found = subprocess.run(["pgrep", "-g", str(group), "-r", "R,S,D"], capture_output=True, check=False)
        if not found.stdout.strip():
            return
        time.sleep(0.1)
    _lost_if(True, f"an engine process outlived its parent (group {group})")


def _finish(kind: str, watch: Watch) -> str:
    """Let the command end in peace, and check what it left."""
    if kind == "writer":
        return f"{len(watch.runs)} runs and {len(watch.used)} entries of use told and found"
    if kind == "used":
        return f"{len(watch.used[1, 'A'])} entries of use told and found"
    done = subprocess.run(_words(kind, watch, 0), env=watch.environment, capture_output=True, check=True)
    payload = json.loads(done.stdout)
    watch.runs |= set(payload["runs"])
    watch.check()
    short = [s for s, n in payload["pairs_ordered"].items() if payload["pairs_cut"][s] < n]
    _lost_if(bool(short), f"sizes {short} fall short")
    _lost_if((watch.out / WORK_FOLDER).exists(), "the work folder stayed behind")
    left = [str(path) for path in watch.out.rglob(".*")]
    return f"the plan went on to its end{f', drafts left: {len(left)}' if left else ''}"


def _lost_if(lost: bool, what: str) -> None:
    if lost:
        raise SystemExit(f"LOST: {what}")


if __name__ == "__main__":
    main()
