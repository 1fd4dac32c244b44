"""Faults made on purpose, counted: kills, a full disk, two desks, clocks, locks, and loads of thousands.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/faults.py [--kills 200] [--seed 1] [-o faults]

Kills (-9): a process edits, saves, files cards, enters runs and use, fills lays or plans, and is killed at a
moment drawn evenly over the time it takes; what it had told of (a line on its output, whole) must be there.
Half of the kills go to what is done all day (edit, save, register, ledger), half to the engine's work
(fill, plan). Resumable: ``OUT/state.json`` says how far it came; the next run goes on there, with the same
moments drawn. Figures end in docs/reliability.md; status 1 at the first loss. By hand: it takes a while.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from app.plan.job import WORK_FOLDER  # noqa: E402
from app.style.file import load_style, save_style  # noqa: E402
from app.style.recovery import left_behind  # noqa: E402
from app.workshop.cloth_register import ClothRegister  # noqa: E402
from app.workshop.ledger import Ledger, LedgerLay, LedgerRun  # noqa: E402
from nesting.files import lay_file  # noqa: E402
from nesting.verify import verify_document  # noqa: E402

STYLE = ROOT / "sample_styles" / "court" / "court.style.json"
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


class Lost(Exception):
    """Something that was told of is not there, or what is there is not whole."""


def lost_if(lost: bool, what: str) -> None:
    if lost:
        raise Lost(what)


def environment(folder: Path) -> dict[str, str]:
    """The environment of a victim: our packages, records of its own."""
    return os.environ | {"PYTHONPATH": str(ROOT), "STAYPLY_DATA_DIR": str(folder / "data")}


# -- kills ---------------------------------------------------------------------------------------


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


def sound(path: Path) -> None:
    with sqlite3.connect(path) as db:
        answer = db.execute("PRAGMA integrity_check").fetchone()[0]
    db.close()
    lost_if(answer != "ok", f"{path.name}: {answer}")


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


# -- faults of the machine ---------------------------------------------------------------------------


def full_disk(folder: Path) -> str:
    """Save, export and plan onto a disk of 2 MB that fills up; what was there stays as it was."""
    disk = folder / "disk"
    disk.mkdir(parents=True, exist_ok=True)
    if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", str(disk)], check=False).returncode:
        return "not tried: no small disk may be mounted here"
    try:
        style = disk / "court.style.json"
        shutil.copy(STYLE, style)
        before = style.read_bytes()
        filler = disk / "filler"
        with filler.open("wb", buffering=0) as file:
            try:
                while True:
                    file.write(b"x" * 4096)
            except OSError:
                pass
        told = []
        here = environment(folder)
        for words in (
            ["cloth", "take", str(style), load_style(STYLE).cloths[0].id],
            ["boards", str(style), "-o", str(disk / "boards")],
            ["lay", str(style), "--pairs", "37:2", "--seconds", "1", "-o", str(disk / "lay")],
            ["plan", str(style), "--pairs", "37:8", "--table", "2000", "--plies", "2", "--setup", "6"]
            + ["--seconds", "1", "-o", str(disk / "plan")],
        ):
            done = subprocess.run(
                [sys.executable, "-m", "app", *words], env=here, capture_output=True, text=True, check=False
            )
            last = (done.stderr.strip().splitlines() or [""])[-1]
            lost_if(done.returncode != 2, f"{words[0]} ended with {done.returncode} on a full disk: {last}")
            lost_if("Traceback" in done.stderr or "should not" in last, f"{words[0]}: {last}")
            told.append(words[0])
        try:
            save_style(load_style(style).model_copy(update={"note": "x"}), style)
            raise Lost("a style was saved on a full disk")
        except Exception as error:
            lost_if(isinstance(error, Lost), str(error))
        lost_if(style.read_bytes() != before, "the style file")
        left = [path.name for path in disk.rglob("*") if path not in (style, filler)]
        lost_if(any(name.endswith((".json", ".pdf", ".dxf", ".plt")) for name in left), f"halves: {left}")
        return f"{', '.join(told)} and saving refused in one line each, the style as it was; left: {left}"
    finally:
        subprocess.run(["umount", str(disk)], check=False)


TWO = """
import sys
from pathlib import Path
from app.style.file import load_style, save_style
from app.style.on_disk import fingerprint
from app.errors import StyleFileError
path, done = Path(sys.argv[1]), 0
while done < int(sys.argv[2]):
    known = fingerprint(path)
    style = load_style(path)
    try:
        save_style(style.model_copy(update={"note": str(int(style.note) + 1)}), path, known=known)
        done += 1
    except StyleFileError:
        continue
"""


def two_desks(folder: Path) -> str:
    """Two programs each add 200 to one number in one style file: the sum tells of a save overwritten."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "court.style.json"
    save_style(load_style(STYLE).model_copy(update={"note": "0"}), path)
    words = [sys.executable, "-c", TWO, str(path), "200"]
    desks = [subprocess.Popen(words, env=environment(folder)) for _ in range(2)]
    lost_if(any(desk.wait() for desk in desks), "a desk ended with an error")
    found = int(load_style(path).note)
    lost_if(found != 400, f"{400 - found} saves of 400 were overwritten")
    return "400 saves by two programs at once, none overwritten"


CLOCK = """
import sys
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path
import app.workshop.ledger as ledger, app.workshop.cloth_register as register, app.style.recovery as recovery
class Back(datetime):
    @classmethod
    def now(cls, tz=None):
        return datetime.now(tz) - timedelta(days=400)
for module in (ledger, register, recovery):
    module.datetime = Back
book = ledger.Ledger(Path(sys.argv[1]) / "ledger.sqlite")
book.used(1, "A", Decimal("7.70"))
cards = register.ClothRegister(Path(sys.argv[1]) / "register.sqlite")
entry = cards.entries("cloth")[0]
cards.save(entry.cloth.model_copy(update={"note": "later"}), seen=entry.revision)
"""


def clock_back(folder: Path) -> str:
    """The clock goes back by 400 days between two entries: what is entered last still counts."""
    folder.mkdir(parents=True, exist_ok=True)
    ledger = Ledger(folder / "ledger.sqlite")
    number = ledger.plan(a_run("clock"))
    lost_if(number != 1, "the folder was used before")
    ledger.used(1, "A", Decimal("3.30"))
    register = ClothRegister(folder / "register.sqlite")
    register.save(load_style(STYLE).cloths[0], seen=0)
    subprocess.run([sys.executable, "-c", CLOCK, str(folder)], env=environment(folder), check=True)
    lost_if(ledger.run(1).lays[0].used_m != Decimal("7.70"), "the later entry of use")
    lost_if(register.entries("cloth")[0].cloth.note != "later", "the later revision of the card")
    return "use entered and a card changed after the clock went back 400 days: both count"


def a_run(name: str) -> LedgerRun:
    lays = (LedgerLay("A", {"37": 4}, 4, 16, Decimal("3.240")),)
    return LedgerRun(
        name, "court", "drill", Decimal(1380), "face-up", 16, Decimal("0.0950"), Decimal("8.10"), "EUR", lays
    )


def locked(folder: Path) -> str:
    """Another program holds the database: shortly (it is waited for), and for good (told, nothing lost)."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "data" / "ledger.sqlite"
    Ledger(path).plan(a_run("locked"))
    told = []
    for hold_s, status in ((3.0, 0), (60.0, 2)):
        holder = sqlite3.connect(path, isolation_level=None)
        holder.execute("BEGIN EXCLUSIVE")
        words = [sys.executable, "-m", "app", "used", "1", "A", "3.10", "--json"]
        began = time.monotonic()
        asked = subprocess.Popen(words, env=environment(folder), stderr=subprocess.PIPE, text=True)
        try:
            asked.wait(timeout=hold_s)
        except subprocess.TimeoutExpired:
            holder.execute("ROLLBACK")
        _, err = asked.communicate()
        took = time.monotonic() - began
        holder.close()
        last = (err.strip().splitlines() or [""])[-1]
        lost_if(asked.returncode != status, f"held {hold_s} s: status {asked.returncode}, {last}")
        told.append(f"held {min(hold_s, took):.0f} s: {'entered' if not status else 'refused in one line'}")
    sound(path)
    lost_if(Ledger(path).run(1).lays[0].used_m != Decimal("3.10"), "the entry that waited")
    return "; ".join(told)


# -- loads -------------------------------------------------------------------------------------------


def many_records(folder: Path) -> str:
    """A register of 10,000 cards, a ledger of 10,000 runs of three lays: milliseconds a look."""
    folder.mkdir(parents=True, exist_ok=True)
    register = ClothRegister(folder / "register.sqlite")
    card = load_style(STYLE).cloths[0]
    register.save_all(
        (card.model_copy(update={"id": f"c{k:05d}", "name": f"Cloth {k}"}), None) for k in range(10_000)
    )
    ledger = Ledger(folder / "ledger.sqlite")
    with sqlite3.connect(folder / "ledger.sqlite") as db:
        for k in range(1, 10_001):
            db.execute(
                "INSERT INTO run VALUES (?,?,?,?,?,?,?,?,?,?,?)",
                (k, "2026-01-01T00:00:00+00:00", f"run {k}", f"style {k % 40}", f"cloth {k % 12}", "1380")
                + ("face-up", 500, "0.0950", "812.50", "EUR"),
            )
            db.execute("INSERT INTO quick VALUES (?,?,?)", (k, "0.118", "0.121"))
            for lay in "ABC":
                db.execute("INSERT INTO lay VALUES (?,?,?,?,?,?)", (k, lay, '{"37": 4}', 20, 160, "32.40"))
                db.execute(
                    "INSERT INTO used (run_id, lay, at, metres, note) VALUES (?,?,?,?,'')",
                    (k, lay, "2026-01-02T00:00:00+00:00", "33.1"),
                )
    db.close()
    looks: dict[str, Callable[[], object]] = {
        "register, a screen of cards": lambda: register.find("cloth", most=100),
        "register, by part of a name": lambda: register.find("cloth", "loth 77", most=100),
        "register, one card": lambda: register.entry("cloth", "c05000"),
        "register, a card changed": lambda: register.save(card.model_copy(update={"id": "c1"}), seen=None),
        "ledger, one run": lambda: ledger.run(5000),
        "ledger, use entered": lambda: ledger.used(5000, "A", Decimal("31.2")),
        "ledger, runs of a style": lambda: ledger.history("style 7"),
        "ledger, estimate": lambda: ledger.estimate(0.09),
        "ledger, how the quick estimate proved": ledger.proven,
        "ledger, a screen of the last 500 runs": lambda: ledger.history(most=500),
        "ledger, all 10,000 runs": ledger.history,
    }
    told = []
    for name, look in looks.items():
        times = []
        for _ in range(5):
            began = time.process_time()
            look()
            times.append(1000.0 * (time.process_time() - began))
        told.append(f"{name} {sorted(times)[2]:.0f} ms")
    return "; ".join(told)


def large_style(folder: Path) -> str:
    """A style of 300 pieces: opened, saved, every backing derived, one piece edited."""
    from app.style import edits, pieces

    folder.mkdir(parents=True, exist_ok=True)
    style = load_style(STYLE)
    many = tuple(
        style.pieces[k % len(style.pieces)].model_copy(update={"name": f"Piece {k}"}) for k in range(300)
    )
    large = style.model_copy(update={"pieces": many, "hold_chains": (), "lays": ()})
    path = folder / "large.style.json"
    told = []

    def timed(name: str, work: Callable[[], object]) -> object:
        began = time.process_time()
        result = work()
        told.append(f"{name} {1000.0 * (time.process_time() - began):.0f} ms")
        return result

    timed("save", lambda: save_style(large, path))
    timed("open", lambda: load_style(path))
    base = large.size_run.base
    timed("all backings of one size", lambda: list(pieces.backings(large, [base])))
    timed("one edit", lambda: edits.rename_piece(large, "Piece 7", "Vamp"))
    timed("300 backings after it", lambda: list(pieces.backings(large, [base])))
    return "; ".join(told)


def large_order(folder: Path) -> str:
    """An order of 100,000 pairs is planned; an absurd one is refused in one line."""
    told = []
    for pairs, status in (("36:20000,37:40000,38:30000,39:10000", 0), ("37:900000000", 2)):
        words = ["plan", str(STYLE), "--pairs", pairs, "--table", "6000", "--plies", "60", "--setup", "6"]
        words += ["--seconds", "3", "-o", str(folder / "plan"), "--json"]
        began = time.monotonic()
        done = subprocess.run(
            [sys.executable, "-m", "app", *words],
            env=environment(folder),
            capture_output=True,
            text=True,
            check=False,
        )
        took = time.monotonic() - began
        last = (done.stderr.strip().splitlines() or [""])[-1]
        lost_if(done.returncode != status, f"{pairs}: status {done.returncode}: {last}")
        if status == 0:
            plan = json.loads(done.stdout)
            short = [size for size, count in plan["pairs_ordered"].items() if plan["pairs_cut"][size] < count]
            lost_if(bool(short), f"sizes {short} fall short")
            told.append(f"100,000 pairs: {len(plan['lays'])} lays in {took:.0f} s")
        else:
            told.append(f"900,000,000 pairs: {last.removeprefix('stayply: ')}")
    return "; ".join(told)


CASES = {
    "full disk": full_disk,
    "two desks": two_desks,
    "clock set back": clock_back,
    "database locked": locked,
    "many records": many_records,
    "large style": large_style,
    "large order": large_order,
}


def main() -> int:
    """Kill, break, load; count; go on where the last run stopped."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help="cases only (separated by commas), or 'kills'")
    parser.add_argument("-o", "--out", type=Path, default=Path("faults"))
    args = parser.parse_args()
    out: Path = args.out.resolve()
    out.mkdir(parents=True, exist_ok=True)
    file = out / "state.json"
    state: dict[str, Any] = json.loads(file.read_text()) if file.exists() else {"kills": {}, "cases": {}}

    def keep() -> None:
        draft = file.with_suffix(".tmp")
        draft.write_text(json.dumps(state, indent=1))
        draft.replace(file)

    only = {name.strip() for name in args.only.split(",") if name.strip()}
    try:
        for name, case in CASES.items():
            if name in state["cases"] or (only and name not in only):
                continue
            shutil.rmtree(out / name.replace(" ", "-"), ignore_errors=True)
            state["cases"][name] = case(out / name.replace(" ", "-"))
            print(f"{name}: {state['cases'][name]}", flush=True)
            keep()
        for kind, share in SHARES.items() if not only or "kills" in only else ():
            count = round(args.kills * share / sum(SHARES.values()))
            kept = state["kills"].setdefault(kind, {"done": 0, "early": 0, "known": {}})
            folder = out / f"kill-{kind}"
            folder.mkdir(exist_ok=True)
            if "whole_s" not in kept:
                kept["whole_s"] = undisturbed_s(kind, folder)
            while kept["early"] < count:  # one that ended before its moment was no kill
                chance = random.Random(f"{args.seed} {kind} {kept['done']}")
                after_s = chance.uniform(0.05, kept["whole_s"])
                took = kill(kind, folder, kept["done"], after_s, kept["known"])
                if took is None:
                    kept["early"] += 1
                else:  # it is quicker now than when it was measured
                    kept["whole_s"] = min(kept["whole_s"], took)
                kept["done"] += 1
                keep()
            print(f"{kind}: {kept['early']} kills in {kept['done']} runs, nothing lost", flush=True)
    except Lost as error:
        print(f"LOST: {error}")
        return 1
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
