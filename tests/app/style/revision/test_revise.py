"""A revised drawing keeps the work: small moves carry everything, doubt is asked, nothing is lost."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.__main__ import main
from app.style.file import load_style, save_style
from app.style.model import LayData
from app.style.revision.match import match_pieces
from app.style.revision.revise import revise
from geometry.dxf.read import read_drawing
from geometry.outline import Outline

FOLDER = Path(__file__).parents[4] / "sample_styles" / "court"
STYLE = load_style(FOLDER / "court.style.json")
DRAWING = read_drawing(FOLDER / "court.dxf")


def redrawn(change, *, names=None):
    """The court drawing with each ring changed by ``change(name, ring)``, pieces renamed by ``names``."""
    pieces = []
    for piece in DRAWING.pieces:
        rings = [change(piece.name, ring) for ring in piece.outline.rings_mm]
        outline = Outline.make(rings[0], rings[1:])
        pieces.append(replace(piece, outline=outline, name=(names or {}).get(piece.name, piece.name)))
    return replace(DRAWING, pieces=tuple(pieces))


def as_drawn(name, ring):
    return ring


def bulged(name, ring, centre=(100.0, 20.0), by=6.0):
    """A smooth move of up to ``by`` mm around a place, as when a throat is moved."""
    away = np.hypot(*(ring - centre).T)[:, None]
    return ring + np.array([by, 0.0]) * np.exp(-((away / 40.0) ** 2))


def test_the_same_drawing_changes_nothing_and_carries_everything() -> None:
    revision = revise(STYLE, DRAWING)
    for before, after in zip(STYLE.pieces, revision.style.pieces, strict=True):
        assert (after.name, after.edges, after.pull_axis) == (before.name, before.edges, before.pull_axis)
        assert (after.layers, after.hold_line, after.per_shoe) == (
            before.layers,
            before.hold_line,
            before.per_shoe,
        )
    assert revision.asked == () and revision.stale_lays == ()


@settings(max_examples=25, deadline=None)
@given(
    dx=st.floats(-40, 40),
    dy=st.floats(-40, 40),
    x=st.floats(20, 180),
    y=st.floats(0, 120),
    by=st.floats(-3, 3),
)
def test_a_revision_by_small_moves_carries_every_edge(dx, dy, x, y, by) -> None:
    """Drawn elsewhere on the sheet and reshaped by up to 3 mm: kinds, setbacks, confirmations stay."""
    moved = redrawn(lambda name, ring: bulged(name, ring, (x, y), by) + (dx, dy))
    revision = revise(STYLE, moved)
    assert [each.match.by for each in revision.matched] == ["name"] * len(STYLE.pieces)
    for before, each in zip(STYLE.pieces, revision.matched, strict=True):
        assert each.edges.carried == len(before.edges) and each.edges.asked == ()
        kept = [(edge.kind, edge.setback_mm, edge.confirmed) for edge in before.edges]
        assert [(edge.kind, edge.setback_mm, edge.confirmed) for edge in each.after.edges] == kept


def test_a_throat_moved_by_six_mm_carries_its_edges_and_says_how_far_it_moved() -> None:
    ring = DRAWING.pieces[0].outline.ring_mm
    throat = tuple(ring[ring[:, 0].argmax()])
    for elsewhere in ((0.0, 0.0), (300.0, -80.0)):

        def moved(name, ring, to=elsewhere):
            return bulged(name, ring, throat) + to

        vamp = revise(STYLE, redrawn(moved)).matched[0]
        assert vamp.match.piece == "Vamp"
        assert vamp.match.max_move_mm == pytest.approx(6.0, abs=0.3)
        assert vamp.edges.carried == len(STYLE.piece("Vamp").edges)


def test_a_renamed_piece_is_known_by_its_shape_and_keeps_its_name_in_the_style() -> None:
    revision = revise(STYLE, redrawn(as_drawn, names={"Quarter outer": "Q-out 3"}))
    (renamed,) = [each for each in revision.matched if each.match.by == "shape"]
    assert (renamed.match.piece, renamed.match.new_name) == ("Quarter outer", "Q-out 3")
    assert renamed.after.edges == STYLE.piece("Quarter outer").edges
    assert "MATCHED_BY_SHAPE" in {each.code for each in revision.asked}
    assert revision.added == revision.removed == ()


def test_exchanged_names_are_asked_about_and_never_taken_in_silence() -> None:
    names = {"Quarter outer": "Vamp", "Vamp": "Quarter outer"}
    swapped = redrawn(as_drawn, names=names)
    revision = revise(STYLE, swapped)
    (question,) = [each for each in revision.asked if each.code == "NAMES_SWAPPED"]
    assert {question.piece, question.other} == set(names) and revision.open
    answered = revise(STYLE, swapped, by_shape=tuple(names))
    assert not answered.open
    for name in names:
        assert answered.style.piece(name).edges == STYLE.piece(name).edges


def test_an_added_and_a_missing_piece_are_told_apart() -> None:
    extra = replace(
        DRAWING.pieces[0], name="Strap", outline=Outline.make([(0, 0), (90, 0), (90, 15), (0, 15)])
    )
    drawing = replace(DRAWING, pieces=(*DRAWING.pieces[:2], extra))
    revision = revise(STYLE, drawing)
    assert [piece.name for piece in revision.added] == ["Strap"]
    assert [piece.name for piece in revision.removed] == ["Quarter inner"]
    assert [piece.name for piece in revision.style.pieces] == ["Vamp", "Quarter outer", "Strap"]
    kept = revise(STYLE, drawing, keep_removed=True)
    assert "Quarter inner" in {piece.name for piece in kept.style.pieces}


def test_a_new_corner_in_an_edge_is_asked_about() -> None:
    def notched(name, ring):
        if name != "Vamp":
            return ring
        middle = len(ring) // 8
        return np.vstack([ring[:middle], ring[middle] + (0.0, -9.0), ring[middle + 1 :]])

    revision = revise(STYLE, redrawn(notched))
    vamp = revision.matched[0]
    assert vamp.edges.asked and vamp.edges.carried < len(STYLE.piece("Vamp").edges)
    open_edges = [edge for edge in vamp.after.edges if not edge.confirmed]
    assert len(open_edges) == len(vamp.edges.asked)
    assert revision.matched[1].edges.asked == ()


def test_lays_of_the_old_outlines_are_marked_and_not_kept_in_silence() -> None:
    laid = LayData(name="1", pairs={"37": 1}, placements=(("Vamp 37 left", 0.0, 0.0, 0.0, False),))
    style = STYLE.model_copy(update={"lays": (laid, LayData(name="2"))})
    assert revise(style, DRAWING).stale_lays == ()
    revision = revise(style, redrawn(bulged), source="court-2.dxf")
    assert revision.stale_lays == ("1",)
    assert "court-2.dxf" in revision.style.lays[0].stale and revision.style.lays[1].stale == ""


def test_a_piece_may_be_refused() -> None:
    revision = revise(STYLE, redrawn(bulged), refused=("Vamp",))
    assert revision.style.piece("Vamp") == STYLE.piece("Vamp")
    assert "Vamp" not in {each.match.piece for each in revision.matched}


@given(st.permutations(range(4)))
def test_matching_does_not_hang_on_the_order_of_the_drawing(order) -> None:
    old = {f"p{k}": Outline.make([(0, 0), (40 + 30 * k, 0), (20, 20 + 10 * k)]) for k in range(4)}
    new = {f"n{k}": old[f"p{k}"].moved(5.0, 3.0) for k in order}
    matching = match_pieces(old, new)
    assert {match.piece: match.new_name for match in matching.matches} == {f"p{k}": f"n{k}" for k in range(4)}


def test_the_command_reports_writes_only_when_asked_and_loses_nothing(tmp_path, capsys) -> None:
    path, out = tmp_path / "court.style.json", tmp_path / "court-2.style.json"
    save_style(STYLE, path)
    before = path.read_bytes()
    assert main(["revise", str(path), str(FOLDER / "court.dxf"), "--json"]) == 0
    payload = json.loads(capsys.readouterr().out)
    assert set(payload) >= {"matched", "added", "removed", "asked", "stale_lays"}
    assert set(payload["matched"][0]) == {
        "piece", "new_name", "by", "max_move_mm", "edges_carried", "edges_asked",
    }  # fmt: skip
    assert payload["style"] is None and path.read_bytes() == before
    assert main(["revise", str(path), str(FOLDER / "court.dxf"), "-o", str(out)]) == 0
    assert load_style(out).piece("Vamp").edges == STYLE.piece("Vamp").edges
    assert main(["revise", str(path), str(FOLDER / "court.dxf"), "-o", str(out)]) == 2
    assert "--force" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "said"), [(["nothing.dxf"], "nothing.dxf"), (["court.dxf", "--refuse", "Tongue"], "Tongue")]
)
def test_bad_words_are_named(words, said, tmp_path, capsys) -> None:
    path = tmp_path / "court.style.json"
    save_style(STYLE, path)
    (tmp_path / "court.dxf").write_bytes((FOLDER / "court.dxf").read_bytes())
    assert main(["revise", str(path), str(tmp_path / words[0]), *words[1:]]) == 2
    assert said in capsys.readouterr().err
