"""Programs killed while they edit, save, file cards, enter runs, fill lays or plan; what must be left."""

from __future__ import annotations

import json
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

from fault_ground import STYLE, Lost, environment, lost_if, sound

from app.plan.job import WORK_FOLDER
from app.style.file import load_style
from app.style.recovery import left_behind
from app.workshop.cloth_register import ClothRegister
from app.workshop.ledger import Ledger
from nesting.files import lay_file
from nesting.verify import verify_document

SHARES = {"edit": 30, "save": 30, "register": 20, "ledger": 20, "fill": 50, "plan": 50}
"""Of 200 kills, how many go to each."""


HEAD = """
import sys
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from app.style.file import load_style, save_style
folder, name, style = Path(sys.argv[1]), sys.argv[2], load_style(sys.argv[3])
number = int(sys.argv[4])
"""
WRITERS = {
    "edit": """
from app.style import edits
from app.style.document import Document
from app.style.recovery import RecoveryCopy
copy = RecoveryCopy(folder / "recovery")
document = Document(style)
while True:
    number += 1
    document.apply("note", document.style.model_copy(update={"note": f"edit {number}"}))
    copy.write(document.style, folder / "court.style.json")
    print(number, flush=True)
""",
    "save": """
while True:
    number += 1
    save_style(style.model_copy(update={"note": f"save {number}"}), folder / "court.style.json")
    print(number, flush=True)
""",
    "register": """
from app.workshop.cloth_register import ClothRegister
register = ClothRegister(folder / "register.sqlite")
while True:
    number += 1
    register.save(style.cloths[0].model_copy(update={"note": f"card {number}"}), seen=None)
    print(number, flush=True)
""",
    "ledger": """
from app.workshop.ledger import Ledger, LedgerLay, LedgerRun
ledger = Ledger(folder / "ledger.sqlite")
while True:
    number += 1
    lays = tuple(LedgerLay(lay, {"37": number}, 4, 4 * number, Decimal("3.240")) for lay in "ABC")
    run = LedgerRun(f"{name}-{number}", "writer", "drill", Decimal(1380), "face-up", 12 * number,
                     Decimal("0.0950"), Decimal("8.10"), "EUR", lays)
    entered = ledger.plan(run)
    ledger.used(entered, "A", Decimal(number) / 100)
    print(entered, number, flush=True)
""",
}
COMMANDS = {
    "fill": ["lay", str(STYLE), "--pairs", "37:6", "--seconds", "2", "--json"],
    "plan": ["plan", str(STYLE), "--pairs", "36:5,37:9,38:6", "--table", "3000", "--plies", "2"]
    + ["--setup", "6", "--seconds", "4", "--json"],
}
WHOLE_S = {"edit": 2.5, "save": 2.5, "register": 2.5, "ledger": 2.5}
"""How long a writer is let run at most; a command's time is measured undisturbed."""


def words_of(kind: str, folder: Path, number: int, known: dict[str, Any]) -> list[str]:
    if kind in COMMANDS:
        return [sys.executable, "-m", "app", *COMMANDS[kind], "-o", str(folder / "out")]
    begin = str(known.get("told", 0))
    return [sys.executable, "-c", HEAD + WRITERS[kind], str(folder), f"w{number}", str(STYLE), begin]


def undisturbed_s(kind: str, folder: Path) -> float:
    """How long a command takes by itself; a folder of its own, so that the victims begin from nothing."""
    if kind in WHOLE_S:
        return WHOLE_S[kind]
    apart = folder / "undisturbed"
    began = time.monotonic()
    words = words_of(kind, apart, 0, {})
    done = subprocess.run(words, env=environment(apart), capture_output=True, text=True, check=False)
    lost_if(done.returncode != 0, f"{kind} undisturbed: {(done.stderr.strip().splitlines() or [''])[-1]}")
    return time.monotonic() - began


def kill(kind: str, folder: Path, number: int, after_s: float, known: dict[str, Any]) -> float | None:
    """Start a victim, kill it after so long, check what it left; the time it took where it ended before."""
    began = time.monotonic()
    victim = subprocess.Popen(
        words_of(kind, folder, number, known),
        env=environment(folder),
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        start_new_session=True,
    )
    try:
        said, _ = victim.communicate(timeout=after_s)
        took: float | None = time.monotonic() - began
    except subprocess.TimeoutExpired:
        victim.send_signal(signal.SIGKILL)
        took = None
        no_orphans(victim.pid)
        said, _ = victim.communicate()
    whole = said[: said.rfind("\n") + 1].splitlines()
    CHECKS[kind](folder, whole, known)
    return took


def no_orphans(group: int) -> None:
    """Wait until the victim's whole process group is gone; the engine ends with its parent."""
    for _ in range(100):
        found = subprocess.run(["pgrep", "-g", str(group), "-r", "R,S,D"], capture_output=True, check=False)
        if not found.stdout.strip():
            return
        time.sleep(0.1)
    raise Lost(f"an engine process outlived its parent (group {group})")


def check_edit(folder: Path, lines: list[str], known: dict[str, Any]) -> None:
    told = int(lines[-1]) if lines else 0
    left = left_behind(folder / "recovery")
    if lines:
        found = [int(each.style.note.removeprefix("edit ")) for each in left]
        lost_if(not found or max(found) < told, f"edit {told}; recovered {found}")
        known["told"] = max(told, *found)
    for each in left:
        each.discard()
    for path in (folder / "recovery").glob("*"):
        path.unlink()


def check_save(folder: Path, lines: list[str], known: dict[str, Any]) -> None:
    told = int(lines[-1]) if lines else known.get("told", 0)
    file = folder / "court.style.json"
    if not file.exists():
        lost_if(told > 0, "the style file is gone")
        return
    found = int(load_style(file).note.removeprefix("save "))
    lost_if(found < told, f"save {told}; the file holds {found}")
    known["told"] = found


def check_register(folder: Path, lines: list[str], known: dict[str, Any]) -> None:
    path = folder / "register.sqlite"
    if not lines and not known.get("told"):
        return
    sound(path)
    notes = [
        entry.cloth.note for entry in ClothRegister(path).history("cloth", load_style(STYLE).cloths[0].id)
    ]
    told = int(lines[-1]) if lines else known["told"]
    missing = [k for k in range(known.get("told", 0) + 1, told + 1) if f"card {k}" not in notes]
    lost_if(bool(missing), f"revisions {missing}")
    known["told"] = max(int(note.removeprefix("card ")) for note in notes)


def check_ledger(folder: Path, lines: list[str], known: dict[str, Any]) -> None:
    path = folder / "ledger.sqlite"
    if not path.exists():
        lost_if(bool(lines), "the history is gone")
        return
    sound(path)
    records = {record.id: record for record in Ledger(path).history()}
    lost_if(any(len(record.lays) != 3 for record in records.values()), "a lay of a run")
    entries = known.setdefault("entries", {})
    for line in lines:
        run, number = line.split()
        entries[run] = str(Decimal(number) / 100)
    for run, metres in entries.items():
        lost_if(int(run) not in records, f"run {run}")
        lost_if(records[int(run)].lays[0].used_m != Decimal(metres), f"{metres} m used for run {run}")
    known["told"] = known.get("told", 0) + len(lines) + 1


def check_fill(folder: Path, lines: list[str], known: dict[str, Any]) -> None:
    out = folder / "out"
    drafts = [path for path in folder.glob(".out.*.tmp")]
    for draft in drafts:  # a killed process cannot sweep up; what it leaves is hidden and named a draft
        shutil.rmtree(draft, ignore_errors=True)
    known["drafts"] = known.get("drafts", 0) + len(drafts)
    if lines:
        known["told"] = known.get("told", 0) + 1
    lost_if(bool(known.get("told")) and not (out / "lay.json").exists(), "the lay that was told of")
    if (out / "lay.json").exists():
        lost_if(not verify_document(lay_file.read(out / "lay.json")).ok, "the lay does not verify")
    for path in (folder / "data").glob("*.sqlite"):
        sound(path)


def check_plan(folder: Path, lines: list[str], known: dict[str, Any]) -> None:
    out = folder / "out"
    work = out / WORK_FOLDER
    stored = sorted(path.name for path in work.glob("*.json") if not path.name.startswith("."))
    for name in stored:
        lost_if(not json.loads((work / name).read_text("utf-8"))["lay"]["placements"], f"kept lay {name}")
    if (out / "plan.json").exists():
        for lay in json.loads((out / "plan.json").read_text("utf-8"))["lays"]:
            document = lay_file.read(out / lay["lay_file"])
            lost_if(not verify_document(document).ok, f"lay {lay['name']} does not verify")
            lost_if(document["plies"] != lay["plies"], f"lay {lay['name']} is of another plan")
    else:
        lost_if(bool(lines), "the plan that was told of")
        lost_if(not set(known.get("stored", [])) <= set(stored), "nested lays of the work folder")
    known["stored"] = [] if (out / "plan.json").exists() else stored
    if lines:
        runs = set(json.loads(lines[-1])["runs"])
        known["runs"] = sorted(set(known.get("runs", [])) | runs)
        shutil.rmtree(out)  # the next one begins a plan again
        known["stored"] = []
    if known.get("runs"):
        have = {record.id for record in Ledger(folder / "data" / "ledger.sqlite").history()}
        lost_if(not set(known["runs"]) <= have, "runs of the history")


CHECKS: dict[str, Callable[[Path, list[str], dict[str, Any]], None]] = {
    "edit": check_edit,
    "save": check_save,
    "register": check_register,
    "ledger": check_ledger,
    "fill": check_fill,
    "plan": check_plan,
}
