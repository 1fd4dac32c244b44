"""Press cutting from the command: dies, hands, strokes, cloth; strips that stand up to the judge."""

import argparse
import csv
import functools
import math

import numpy as np
import pytest
from shapely.geometry import Polygon

from app.__main__ import main
from app.commands import press
from app.press import job as press_job
from app.style.samples import sample
from nesting.files import lay_file
from nesting.press import rows as rows_module
from nesting.press.rows import press_rows
from nesting.verify import verify_document

DERBY = sample("derby").style
"""Its second layers are one strip for outer left and inner right; its counter is symmetric."""


def remembered(search):
    known = {}

    def ask(rings, *args, **how):
        key = tuple(ring.tobytes() for ring in rings)
        if key not in known:
            known[key] = search(rings, *args, **how)
        return list(known[key])

    return ask


@pytest.fixture(scope="module", autouse=True)
def few_starts():
    """Fewer starts find looser rows sooner; nothing here asks for the closest."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(press_job, "press_rows", functools.partial(press_rows, starts=40))
        for name in ("searched", "straight"):  # both spreads set out the same outlines
            patch.setattr(rows_module, name, remembered(getattr(rows_module, name)))
        yield


def pressed(out, *words):
    parser = argparse.ArgumentParser()
    press.add_arguments(parser)
    done = press.run(parser.parse_args([str(DERBY), "--pairs", "42:10", "-o", str(out), *words]))
    assert done.status == 0
    return done.payload


@pytest.fixture(scope="module")
def face_up(tmp_path_factory):
    out = tmp_path_factory.mktemp("press") / "face-up"
    return out, pressed(out, "--layers", "4")


@pytest.fixture(scope="module")
def face_to_face(tmp_path_factory):
    out = tmp_path_factory.mktemp("press") / "face-to-face"
    return out, pressed(out, "--layers", "4", "--spread", "face-to-face", "--cloth", "twill-150")


def test_every_piece_of_the_order_is_cut(face_up, face_to_face):
    for _, payload in (face_up, face_to_face):
        for die in payload["dies"]:
            assert die["pieces_cut"] == die["strokes"] * die["layers"] >= die["pieces_needed"]
            assert die["pieces_needed"] == sum(cut["needed"] for cut in die["cuts"])
        of_twill = [cut for die in payload["dies"] if die["cloth"] == "twill-150" for cut in die["cuts"]]
        for piece in ("Vamp", "Quarter outer", "Quarter inner", "Counter"):
            for hand in ("left", "right"):
                assert sum(c["needed"] for c in of_twill if (c["piece"], c["hand"]) == (piece, hand)) == 10


def test_a_die_s_lay_says_what_it_cuts_as_data(face_up):
    """No sentence of one language: whoever shows it finds the words."""
    out, payload = face_up
    for die in payload["dies"]:
        kept = lay_file.read(out / die["lay_file"])["cuts"]
        assert [(c["piece"], c["size"], c["hand"], c["needed"]) for c in kept] == [
            (c["piece"], c["size"], c["hand"], c["needed"]) for c in die["cuts"]
        ]


def test_strokes_are_pieces_over_layers_rounded_up(face_up):
    for die in face_up[1]["dies"]:
        assert die["strokes"] == math.ceil(die["pieces_needed"] / die["layers"])


def test_glue_up_only_a_symmetric_piece_does_both_hands(face_up):
    twill = {d["cuts"][0]["piece"]: d for d in face_up[1]["dies"] if d["cloth"] == "twill-150"}
    assert twill["Counter"]["hands"] == ["left", "right"]
    assert "own mirror image" in twill["Counter"]["notes"][0]
    assert len([d for d in face_up[1]["dies"] if d["cuts"][0]["piece"] == "Vamp"]) == 2


def test_one_pieces_left_may_be_anothers_right(face_up):
    second = [d for d in face_up[1]["dies"] if d["cloth"] == "plain-110"]
    assert len(second) == 2
    for die in second:
        assert len({(cut["piece"], cut["hand"]) for cut in die["cuts"]}) == 2
        assert die["hands"] == ["left", "right"]


def test_layers_turned_over_save_a_die_and_the_hands_come_out_alike(face_up, face_to_face):
    twill = [d for d in face_up[1]["dies"] if d["cloth"] == "twill-150"]
    assert len(twill) == 7 and len(face_to_face[1]["dies"]) == 4
    for die in face_to_face[1]["dies"]:
        assert die["hands"] == ["left", "right"] and die["layers"] % 2 == 0
        up = sum(c["needed"] for c in die["cuts"] if c["layers"] == "glue side up")
        over = sum(c["needed"] for c in die["cuts"] if c["layers"] == "turned over")
        assert over == 0 or up == over <= die["pieces_cut"] // 2


def test_every_strip_and_stack_verifies_and_holds_the_strokes(face_up, face_to_face):
    for out, payload in (face_up, face_to_face):
        for entry in (*payload["dies"], *payload["stacks"]):
            document = lay_file.read(out / entry["lay_file"])
            assert verify_document(document).ok
            assert document["length_mm"] == pytest.approx(entry["length_mm"], abs=1e-3)
        for die in payload["dies"]:
            held = sum(
                block["places"]
                for s in payload["stacks"]
                for block in s["blocks"]
                if block["die"] == die["die"]
            )
            assert held == die["strokes"] == len(lay_file.read(out / die["lay_file"])["placements"])


def test_places_in_the_file_stand_where_the_rows_say(face_up):
    """Read back from the outlines alone: corners of boxes, the step between neighbours of a row."""
    out, payload = face_up
    for die in payload["dies"]:
        placed = [np.array(p["outline_mm"]) for p in lay_file.read(out / die["lay_file"])["placements"]]
        corners = {tuple(np.round(ring.min(axis=0), 3)) for ring in placed}
        along = np.array([1.0, 0.0]) if die["rows_run"] == "along" else np.array([0.0, 1.0])
        for row in die["rows"]:
            # a row that reaches over the edge of a strip may leave out places, never move one
            first = np.array([row["x_mm"], row["y_mm"]])
            on_row = [
                k for k in range(60) if tuple(np.round(first + k * die["step_mm"] * along, 3)) in corners
            ]
            assert len(on_row) >= row["places"] and on_row[0] == 0


def test_cloth_adds_up_from_strips_to_metres(face_up):
    _, payload = face_up
    for cloth, told in payload["cloths"].items():
        dies = [d for d in payload["dies"] if d["cloth"] == cloth]
        own = sum(d["stacks"] * d["layers"] * (d["length_mm"] + 40.0) / 1000.0 for d in dies)
        assert told["own_strips_m"] == pytest.approx(own, abs=2e-3)
        stacks = [s for s in payload["stacks"] if s["cloth"] == cloth]
        assert told["metres"] == pytest.approx(
            sum(4 * (s["length_mm"] + 40.0) / 1000.0 for s in stacks), abs=2e-3
        )
        assert told["rows_m"] < told["metres"] < told["own_strips_m"] + 1e-9
        area = sum(Polygon(p["outline_mm"]).area for s in stacks for p in _placed(face_up[0], s))
        assert told["net_m2"] == pytest.approx(4 * area / 1e6, abs=1e-4)


def _placed(out, entry):
    return lay_file.read(out / entry["lay_file"])["placements"]


def test_the_table_holds_every_die_and_row(face_up):
    out, payload = face_up
    with (out / "press-list.csv").open(encoding="utf-8-sig", newline="") as file:
        lines = list(csv.reader(file))
    dies = [line for line in lines if line[0] == "Dies"]
    assert [line[1] for line in dies] == [die["die"] for die in payload["dies"]]
    rows = [line for line in lines if line[0] == "Rows"]
    assert len(rows) == sum(len(die["rows"]) for die in payload["dies"])
    assert (out / "press-list.pdf").stat().st_size > 10_000


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([], "--layers N, or --cutting-height"),
        (["--layers", "3", "--spread", "face-to-face"], "even number"),
        (["--layers", "0"], "0 layers cannot be cut"),
        (["--layers", "2", "--width", "900"], "add --cloth"),
        (["--layers", "2", "--cloth", "silk"], "nothing is cut from silk"),
        (["--layers", "2", "--cloth", "twill-150", "--width", "120"], "wider than the roll"),
    ],
)
def test_what_cannot_be_pressed_is_said_in_one_line(words, said, tmp_path, capsys):
    status = main(["press", str(DERBY), "--pairs", "42:10", "-o", str(tmp_path / "out"), *words])
    told = capsys.readouterr().err
    assert status == 2 and said in told and len(told.splitlines()) == 1
    assert not (tmp_path / "out").exists()
