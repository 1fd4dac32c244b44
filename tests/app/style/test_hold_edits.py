"""Drawing, moving and removing hold lines, and chaining them."""

from pathlib import Path

import pytest

from app.style import edits
from app.style.checks import first_problem
from app.style.edits import EditError
from app.style.file import load_style, save_style
from app.style.model import HoldChain

COURT = Path(__file__).parents[3] / "sample_styles/court/court.style.json"


@pytest.fixture(scope="module")
def court():
    return load_style(COURT)


def test_a_line_drawn_anew_keeps_its_limit(court):
    drawn = edits.set_hold_line(court, "Vamp", (30.0, 190.0), (80.0, 190.0))
    assert drawn.piece("Vamp").hold_line.limit_mm == 2.0
    assert drawn.piece("Vamp").hold_line.to_mm == (80.0, 190.0)
    with pytest.raises(EditError, match="no length"):
        edits.set_hold_line(court, "Vamp", (30.0, 190.0), (30.2, 190.0))


def test_a_limit_belongs_to_a_line_and_lies_above_zero(court):
    free = court.model_copy(update={"hold_chains": ()})
    bare = edits.remove_hold_line(free, "Vamp")
    assert bare.piece("Vamp").hold_line is None
    with pytest.raises(EditError, match="no hold line"):
        edits.set_hold_limit(bare, "Vamp", 2.0)
    with pytest.raises(EditError, match="above zero"):
        edits.set_hold_limit(court, "Vamp", -1.0)
    assert edits.set_hold_limit(court, "Vamp", None).piece("Vamp").hold_line.limit_mm is None


def test_a_line_that_a_chain_needs_stays(court):
    with pytest.raises(EditError, match="part of the chain Outer side"):
        edits.remove_hold_line(court, "Vamp")
    apart = edits.remove_hold_chain(edits.remove_hold_chain(court, "Outer side"), "Inner side")
    assert edits.remove_hold_line(apart, "Vamp").piece("Vamp").hold_line is None


def test_a_chain_runs_over_pieces_that_have_lines(court):
    for pieces, said in (("Vamp",), "two pieces"), (("Vamp", "Vamp"), "two pieces"):
        with pytest.raises(EditError, match=said):
            edits.put_hold_chain(court, HoldChain(name="short", pieces=pieces))
    bare = edits.remove_hold_line(court.model_copy(update={"hold_chains": ()}), "Vamp")
    with pytest.raises(EditError, match="Vamp has no hold line"):
        edits.put_hold_chain(bare, HoldChain(name="side", pieces=("Quarter outer", "Vamp")))
    longer = HoldChain(name="Outer side", pieces=("Quarter outer", "Vamp"), limit_mm=6.0)
    put = edits.put_hold_chain(court, longer)
    assert [c.limit_mm for c in put.hold_chains] == [6.0, 5.0]


def test_a_chain_follows_a_renamed_piece_and_the_file_keeps_it(court, tmp_path):
    renamed = edits.rename_piece(court, "Vamp", "Front")
    assert renamed.hold_chains[0].pieces == ("Quarter outer", "Front")
    save_style(renamed, tmp_path / "s.json")
    assert load_style(tmp_path / "s.json").hold_chains == renamed.hold_chains
    broken = renamed.model_copy(update={"hold_chains": (HoldChain(name="x", pieces=("Vamp", "Front")),)})
    assert first_problem(broken) == "chain x: there is no piece called Vamp"
