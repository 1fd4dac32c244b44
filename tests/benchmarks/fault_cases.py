"""Faults of the machine and loads of thousands: each case says what it saw, or what was lost."""

from __future__ import annotations

import json
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

from fault_ground import STYLE, Lost, environment, lost_if, sound

from app.style.file import load_style, save_style
from app.workshop.cloth_register import ClothRegister
from app.workshop.ledger import Ledger, LedgerLay, LedgerRun


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
