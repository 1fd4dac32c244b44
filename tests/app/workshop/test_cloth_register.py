"""The register: nothing is overwritten, nobody undoes another's work, nothing dies with a process."""

import os
import signal
import sqlite3
import subprocess
import sys
import threading
from decimal import Decimal
from pathlib import Path

import pytest

from app.errors import DatabaseError
from app.style.model import ClothData, FlawData, PressSetting, SheetConstants, StretchReading, UpperMaterial
from app.workshop.cloth_csv import CsvError, cards_csv, read_cards, read_readings, readings_csv
from app.workshop.cloth_register import CardChanged, ClothRegister, RegisterError, use_cloth
from app.workshop.folder import data_path
from tests.app.workshop.killed_writer import DIES


def a_cloth(**more):
    fields = {"id": "drill", "name": "Drill 160", "width_mm": 1500.0, "usable_width_mm": 1460.0, **more}
    return ClothData(**fields)


def a_strip(angle=0.0, extension=2.5, **more):
    return StretchReading(
        angle_deg=angle, width_mm=25, gauge_mm=100, loads_n=(25.0,), extensions_mm=(extension,), **more
    )


def test_a_card_is_found_again_as_it_was_filed(tmp_path):
    register = ClothRegister(tmp_path / "register.sqlite")
    card = a_cloth(
        price_per_m=Decimal("3.40"),
        tests=(a_strip(),),
        press=PressSetting(temperature_c=110, source="sheet 7"),
    )
    assert register.save(card, seen=0).revision == 1
    assert register.entry("cloth", "drill").cloth == card
    upper = UpperMaterial(name="calf 1.2", thickness_mm=1.2)
    register.save(upper, seen=0)
    assert register.entry("upper", "calf 1.2").upper == upper
    assert [entry.id for entry in register.entries("cloth")] == ["drill"]


def test_every_revision_is_kept_even_of_a_card_taken_out(tmp_path):
    register = ClothRegister(tmp_path / "register.sqlite")
    first = register.save(a_cloth(price_per_m=Decimal("3")), seen=0)
    register.save(a_cloth(price_per_m=Decimal("4")), seen=first.revision)
    register.remove("cloth", "drill", seen=2)
    assert register.entries("cloth") == ()
    with pytest.raises(RegisterError, match="no cloth drill"):
        register.entry("cloth", "drill")
    kept = register.history("cloth", "drill")
    assert [entry.card and entry.cloth.price_per_m for entry in kept] == [Decimal("3"), Decimal("4"), None]
    assert register.save(a_cloth(), seen=3).revision == 4


def test_who_comes_second_is_told_and_does_not_undo_the_first(tmp_path):
    path = tmp_path / "register.sqlite"
    one, two = ClothRegister(path), ClothRegister(path)
    one.save(a_cloth(), seen=0)
    seen_by_two = two.entry("cloth", "drill").revision
    one.save(a_cloth(lot="A7"), seen=1)
    with pytest.raises(RegisterError, match="was changed at"):
        two.save(a_cloth(lot="B2"), seen=seen_by_two)
    assert one.entry("cloth", "drill").cloth.lot == "A7"
    with pytest.raises(RegisterError, match="not in the register any more"):
        one.save(a_cloth(id="other"), seen=4)


def test_a_copy_filed_again_does_not_undo_what_another_desk_filed_meanwhile(tmp_path):
    register = ClothRegister(tmp_path / "register.sqlite")
    mine = register.file(a_cloth(lot="A1", flaws=(FlawData(ring_mm=((0, 0), (9, 0), (9, 9))),))).copy
    assert mine.register_revision == 1 and mine.flaws == ()
    theirs = register.entry("cloth", "drill").copy
    assert register.file(theirs.model_copy(update={"lot": "B7"})).revision == 2
    with pytest.raises(
        CardChanged, match=r"drill was changed in the register at .* yours began from 1"
    ) as told:
        register.file(mine.model_copy(update={"lot": "A2"}))
    assert told.value.now.cloth.lot == "B7"
    assert register.entry("cloth", "drill").cloth.lot == "B7"
    assert register.file(mine.model_copy(update={"lot": "A2"}), over=True).revision == 3
    assert [e.cloth.lot for e in register.history("cloth", "drill")] == ["A1", "B7", "A2"]
    with pytest.raises(CardChanged, match="stands in the register already, revision 3"):
        register.file(a_cloth(lot="C"))
    register.remove("cloth", "drill")
    with pytest.raises(CardChanged, match="was taken out"):
        register.file(mine)


def test_all_cards_of_an_import_are_filed_or_none(tmp_path):
    register = ClothRegister(tmp_path / "register.sqlite")
    with pytest.raises(RegisterError, match="name to be filed under"):
        register.save_all([(a_cloth(), None), (a_cloth(id=" "), None)])
    assert register.entries("cloth") == ()


def test_a_style_holds_a_copy(tmp_path):
    from app.style.file import load_style

    style = load_style(Path(__file__).parents[3] / "sample_styles/court/court.style.json")
    with_it = use_cloth(style, a_cloth(), first=True)
    assert [c.id for c in with_it.cloths] == ["drill", "twill-150", "plain-110"]
    replaced = use_cloth(with_it, a_cloth(lot="A7"))
    assert [c.id for c in replaced.cloths] == ["drill", "twill-150", "plain-110"]
    assert replaced.cloths[0].lot == "A7" and with_it.cloths[0].lot == ""


def test_the_place_of_the_records_can_be_moved(tmp_path, monkeypatch):
    monkeypatch.setenv("STAYPLY_DATA_DIR", str(tmp_path / "shared"))
    assert ClothRegister().path == data_path("register.sqlite") == tmp_path / "shared" / "register.sqlite"
    assert (tmp_path / "shared" / "register.sqlite").exists()


def test_a_register_that_is_none_is_named(tmp_path):
    path = tmp_path / "register.sqlite"
    path.write_bytes(b"not a database at all, though it is long enough to look like one" * 40)
    with pytest.raises(DatabaseError, match=r"register\.sqlite"):
        ClothRegister(path)


WRITER = """
import sys
from pathlib import Path
from app.workshop.cloth_register import ClothRegister, RegisterError
from app.style.model import ClothData, StretchReading
register = ClothRegister(Path(sys.argv[1]))
name, count = sys.argv[3], int(sys.argv[2])
for i in range(count):
    strip = StretchReading(angle_deg=float(i % 180), width_mm=25, gauge_mm=100, loads_n=(25.0,),
                           extensions_mm=(2.5,), note=f"{name} {i}")
    while True:  # as a person does who is told that another desk came first
        seen = register.entry("cloth", "shared")
        card = seen.cloth.model_copy(update={"tests": (*seen.cloth.tests, strip)})
        try:
            register.save(card, seen=seen.revision)
            break
        except RegisterError:
            pass
    register.save(ClothData(id=f"{name}-{i}", name=name, width_mm=1500, usable_width_mm=1460), seen=0)
    print(i, flush=True)
    said = [i]
"""


def writer(path, count, name, before="", *more):
    return subprocess.Popen(
        [sys.executable, "-c", before + WRITER, str(path), str(count), name, *more],
        stdout=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": str(Path(__file__).parents[3])},
    )


def test_two_processes_write_at_once_and_nothing_is_lost(tmp_path):
    path = tmp_path / "register.sqlite"
    register = ClothRegister(path)
    register.save(a_cloth(id="shared"), seen=0)
    desks = [writer(path, 25, name) for name in ("one", "two")]
    assert [desk.wait(timeout=600) for desk in desks] == [0, 0]
    notes = [strip.note for strip in register.entry("cloth", "shared").cloth.tests]
    assert sorted(notes) == sorted(f"{name} {i}" for name in ("one", "two") for i in range(25))
    assert len(register.entries("cloth")) == 51
    assert len(register.history("cloth", "shared")) == 51


def test_a_desk_that_starts_while_another_makes_the_register_waits_for_it(tmp_path):
    path = tmp_path / "register.sqlite"
    other = sqlite3.connect(path, isolation_level=None, check_same_thread=False)
    other.execute("CREATE TABLE being_made (x)")
    other.execute("BEGIN IMMEDIATE")

    def done():
        other.execute("ROLLBACK")
        other.close()

    timer = threading.Timer(0.4, done)
    timer.start()
    assert ClothRegister(path).save(a_cloth(), seen=0).revision == 1
    timer.join()


@pytest.mark.parametrize("statement", [1, 4, 30])
def test_killed_in_the_middle_nothing_that_was_said_is_lost(tmp_path, statement):
    path = tmp_path / "register.sqlite"
    register = ClothRegister(path)
    register.save(a_cloth(id="shared"), seen=0)
    desk = writer(path, 100000, "victim", DIES, str(statement))
    said = desk.communicate(timeout=600)[0].splitlines(keepends=True)
    assert desk.returncode == -signal.SIGKILL and said
    ids = {entry.id for entry in register.entries("cloth")}
    notes = {strip.note for strip in register.entry("cloth", "shared").cloth.tests}
    for line in (line.strip() for line in said if line.endswith("\n")):
        assert f"victim-{line}" in ids and f"victim {line}" in notes
    assert register.save(a_cloth(id="after"), seen=0).revision == 1  # no lock is left behind


def test_cards_survive_a_table(tmp_path):
    card = a_cloth(
        price_per_m=Decimal("3.40"),
        one_way=True,
        how_known="tested",
        note='says "hello", twice',
        press=PressSetting(temperature_c=110, seconds=12, pressure_mpa=0.2, source="sheet, page 2"),
        sheet=SheetConstants(e1_n_per_mm=40, e2_n_per_mm=16, g12_n_per_mm=1.2, nu12=0.2, source="tests"),
    )
    path = tmp_path / "cloths.csv"
    path.write_text(cards_csv([card, a_cloth(id="plain")]))
    assert read_cards(path) == (card, a_cloth(id="plain"))


def test_a_table_from_a_spreadsheet_with_decimal_commas_is_read(tmp_path):
    path = tmp_path / "cloths.csv"
    path.write_bytes("id;name;width_mm;price_per_m\ndrill;Köper 160;1500,5;3,40\n;;;\n".encode("cp1252"))
    (card,) = read_cards(path)
    assert (card.name, card.width_mm, card.usable_width_mm) == ("Köper 160", 1500.5, 1500.5)
    assert card.price_per_m == Decimal("3.40")


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("id,width_mm\n", "no cards"),
        ("id,width_mm\ndrill,wide\n", "line 2: width_mm"),
        ("id,width_mm\ndrill,-5\n", "line 2: width_mm"),
        ("id,width_mm,usable_width_mm\ndrill,100,200\n", "line 2: drill: usable 200"),
        ("id,width_mm\ndrill,100,200\n", "line 2: more cells"),
        ("id,width_mm,sheet_e1_n_per_mm\ndrill,100,40\n", "line 2: sheet_e2"),
        ("\0\0", "not a table"),
    ],
)
def test_a_bad_table_is_refused_with_file_and_line(tmp_path, text, what):
    path = tmp_path / "cloths.csv"
    path.write_text(text)
    with pytest.raises(CsvError, match=what) as refusal:
        read_cards(path)
    assert "cloths.csv" in str(refusal.value) and refusal.value.remedy


def test_readings_survive_a_table(tmp_path):
    strips = (
        a_strip(0.0, note="first"),
        StretchReading(
            angle_deg=45,
            width_mm=25,
            gauge_mm=100,
            loads_n=(5.0, 25.0),
            extensions_mm=(6.0, 22.0),
            narrowings_mm=(0.5, 2.0),
        ),
    )
    path = tmp_path / "strips.csv"
    path.write_text(readings_csv(strips))
    assert read_readings(path) == strips
    path.write_text("angle_deg,width_mm,gauge_mm,load_n,extension_mm\n0,25,100,25,2.5\n90,25,100,25,6\n")
    assert [s.angle_deg for s in read_readings(path)] == [0, 90]
    path.write_text("angle_deg,width_mm,gauge_mm,load_n\n0,25,100,25\n")
    with pytest.raises(CsvError, match="extension_mm is missing"):
        read_readings(path)


def test_a_large_register_is_looked_through_by_name_and_in_parts(tmp_path):
    register = ClothRegister(tmp_path / "register.sqlite")
    register.save_all((a_cloth(id=f"c{k:03d}", name=f"Twill {k}"), None) for k in range(60))
    register.save(a_cloth(id="größe", name="Köper Grün"), seen=0)
    register.remove("cloth", "c005")
    some, count = register.find("cloth", most=10)
    assert len(some) == 10 and count == 61
    (found,), count = register.find("cloth", "KÖPER")
    assert found.id == "größe" and count == 1
    everything, _ = register.find("cloth", most=100)
    assert everything[-1].id == "c005" and everything[-1].card is None, "what was taken out stands last"
    assert register.find("cloth", "linen") == ((), 0)
