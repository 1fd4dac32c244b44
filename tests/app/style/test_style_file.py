"""The style file: read back as written, never half-written, and clear about what is wrong."""

from __future__ import annotations

import json
import os
import stat
from pathlib import Path
from typing import Any

import pytest

from app.errors import StyleFileError
from app.style.file import load_style, save_style
from app.style.model import Style


def _damaged(path: Path, change: Any) -> Path:
    data = json.loads(path.read_text())
    change(data)
    path.write_text(json.dumps(data))
    return path


def test_a_style_is_read_back_as_it_was_saved(plain_style: Style, plain_file: Path) -> None:
    assert load_style(plain_file) == plain_style


def test_unknown_fields_survive_at_every_depth(plain_file: Path, tmp_path: Path) -> None:
    def add(data: dict[str, Any]) -> None:
        data["season"] = {"name": "autumn", "weeks": [36, 37], "none": None}
        data["pieces"][0]["colour_card"] = "7b"
        data["pieces"][0]["drawings"]["37"]["plotter"] = 3
        data["cloths"][0]["press"]["plate"] = [1.5, 2.5]

    _damaged(plain_file, add)
    again = tmp_path / "again.style.json"
    save_style(load_style(plain_file), again)
    data = json.loads(again.read_text())
    assert data["season"] == {"name": "autumn", "weeks": [36, 37], "none": None}
    assert data["pieces"][0]["colour_card"] == "7b"
    assert data["pieces"][0]["drawings"]["37"]["plotter"] == 3
    assert data["cloths"][0]["press"]["plate"] == [1.5, 2.5]


def test_a_person_can_read_it(plain_file: Path) -> None:
    lines = plain_file.read_text().splitlines()
    outline = [line for line in lines if '"outline_mm"' in line]
    assert len(outline) == 2, "an outline stands on one line"
    assert '"price_per_m": "2.50"' in plain_file.read_text(), "money stays decimal"
    assert lines[1].strip() == '"format": "stayply-style",'


def test_lengths_are_rounded_below_anything_that_matters(plain_style: Style, tmp_path: Path) -> None:
    piece = plain_style.pieces[0]
    noisy = tuple((x + 1e-9, y - 0.0) for x, y in piece.drawings["37"].outline_mm)
    drawing = piece.drawings["37"].model_copy(update={"outline_mm": noisy})
    style = plain_style.model_copy(
        update={"pieces": (piece.model_copy(update={"drawings": {"37": drawing}}), plain_style.pieces[1])}
    )
    save_style(style, tmp_path / "noisy.style.json")
    assert load_style(tmp_path / "noisy.style.json") == plain_style


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda d: d.update(version=2), "newer stayply"),
        (lambda d: d.update(version="one"), "version"),
        (lambda d: d.update(format="other"), "is not a style file"),
        (lambda d: d.pop("name"), "the field name is missing"),
        (
            lambda d: d["pieces"][1]["pull_axis"].update(axis_deg=200),
            "piece tongue: the field pieces[1].pull",
        ),
        (lambda d: d["pieces"][0]["edges"][2].update(kind="velcro"), "pieces[0].edges[2].kind"),
        (lambda d: d["pieces"][0]["edges"][2].update(start=99), "piece strap: an edge starts at vertex 99"),
        (lambda d: d["pieces"][0]["drawings"]["37"]["outline_mm"].__setitem__(1, [1e400, 0]), "finite"),
        (lambda d: d["pieces"][0]["drawings"]["37"]["outline_mm"].reverse(), "counter-clockwise"),
        (lambda d: d["pieces"][0]["drawings"]["37"]["outline_mm"].pop(), "ring 0 has 3"),
        (
            lambda d: d["pieces"][0]["drawings"]["37"].update(outline_mm=[[0, 0], [9, 9], [9, 0], [0, 8]]),
            "size 37: the outline",
        ),
        (
            lambda d: d["pieces"][0]["drawings"]["37"].update(
                outline_mm=[[0, 0], [90, 0], [90, 60], [40, -9], [0, 60]]
            ),
            "size 37: the outline is not clean: Self-intersection",
        ),
        (
            lambda d: d["pieces"][0]["drawings"]["37"]["outline_mm"].append([0, 0]),
            "the outline repeats its first point",
        ),
        (lambda d: d["pieces"][0]["drawings"]["37"]["outline_mm"].__setitem__(1, [1e300, 0]), "10000000"),
        (
            lambda d: d["pieces"][0].update(drawings={"38": {"outline_mm": [[0, 0], [1, 0], [0, 1]]}}),
            "base size",
        ),
        (lambda d: d["pieces"][1].update(name="strap"), "2 pieces called strap"),
        (lambda d: d["size_run"].update(base="44"), "base size 44"),
        (lambda d: d["cloths"][0].update(usable_width_mm=2000), "usable width is larger"),
        (lambda d: d["cloths"][0].update(price_per_m="two"), "cloths[0].price_per_m"),
        (lambda d: d["pieces"][0]["layers"][0].update(cloth="felt"), "cloth felt"),
        (lambda d: d.update(pieces=[]), "no pieces"),
        (lambda d: d.update(cloths=[]), "no cloth"),
    ],
)
def test_what_is_wrong_is_named(plain_file: Path, change: Any, said: str) -> None:
    with pytest.raises(StyleFileError) as caught:
        load_style(_damaged(plain_file, change))
    assert said in str(caught.value)
    assert str(caught.value).startswith(str(plain_file))
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is empty"),
        (b'{"format": "stayply-style", "vers', "is damaged at line 1"),
        (b"\xff\xfe\x00\x01", "is not a style file"),
        (b"[1, 2]", "is not a style file"),
        (b"[" * 100_000, "is damaged"),
        (b"0\nSECTION\n2\nHEADER\n", "is damaged"),
    ],
)
def test_what_is_no_style_file_is_refused(tmp_path: Path, content: bytes, said: str) -> None:
    path = tmp_path / "x.style.json"
    path.write_bytes(content)
    with pytest.raises(StyleFileError, match=said):
        load_style(path)


def test_a_drawing_given_as_a_style_gets_the_way_to_make_one(tmp_path: Path) -> None:
    path = tmp_path / "court.dxf"
    path.write_text("0\nSECTION\n")
    with pytest.raises(StyleFileError, match="stayply new"):
        load_style(path)


def test_a_missing_file_and_a_folder_are_named(tmp_path: Path) -> None:
    with pytest.raises(StyleFileError, match="no such file"):
        load_style(tmp_path / "none.style.json")
    with pytest.raises(StyleFileError):
        load_style(tmp_path)


def test_a_save_that_fails_leaves_the_old_file(
    plain_style: Style, plain_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = plain_file.read_bytes()

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StyleFileError, match="No space left"):
        save_style(plain_style.model_copy(update={"name": "Other"}), plain_file)
    assert plain_file.read_bytes() == before
    assert list(plain_file.parent.iterdir()) == [plain_file], "nothing is left over"


@pytest.mark.skipif(os.name != "posix", reason="permissions and links as on POSIX")
def test_permissions_and_links_are_kept(plain_style: Style, plain_file: Path, tmp_path: Path) -> None:
    plain_file.chmod(0o640)
    link = tmp_path / "link.style.json"
    link.symlink_to(plain_file)
    save_style(plain_style.model_copy(update={"name": "Other"}), link)
    assert link.is_symlink()
    assert load_style(plain_file).name == "Other"
    assert stat.S_IMODE(plain_file.stat().st_mode) == 0o640
