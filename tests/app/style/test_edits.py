"""Edits are pure: a new style each, the old one as it was, and a clear refusal where none can be."""

from decimal import Decimal
from pathlib import Path

import pytest
from pydantic import ValidationError

from app.style import edits
from app.style.checks import first_problem
from app.style.edits import EditError
from app.style.file import load_style
from app.style.model import FlawData, LayData
from geometry.edge_kinds import EdgeKind
from geometry.errors import EdgeError

DERBY = Path(__file__).parents[3] / "sample_styles/derby/derby.style.json"


@pytest.fixture
def style():
    return load_style(DERBY)


def names(style, piece="Vamp"):
    return [(edge.ring, edge.start) for edge in style.piece(piece).edges]


def edge(style, name, piece="Vamp"):
    return next(e for e in style.piece(piece).edges if (e.ring, e.start) == name)


def test_a_kind_confirms_the_edge_and_forgets_the_old_kinds_setback(style):
    name = names(style)[0]
    own = edits.set_setback(style, "Vamp", [name], 3.25)
    assert edge(own, name).setback_mm == 3.25
    folded = edits.set_edge_kind(own, "Vamp", [name], EdgeKind.FOLDED)
    assert edge(folded, name).kind is EdgeKind.FOLDED and edge(folded, name).setback_mm is None
    assert edge(folded, name).confirmed
    assert edge(own, name).kind is not EdgeKind.FOLDED  # the former value is untouched


def test_the_same_kind_again_keeps_its_setback(style):
    name = names(style)[0]
    own = edits.set_setback(style, "Vamp", [name], 3.25)
    assert edits.set_edge_kind(own, "Vamp", [name], edge(own, name).kind) is own


def test_break_points_come_move_and_go(style):
    first = names(style)[0]
    vertex = first[1] + 5
    more = edits.add_break(style, "Vamp", 0, vertex)
    assert len(names(more)) == len(names(style)) + 1
    assert edge(more, (0, vertex)).kind is edge(style, first).kind
    moved = edits.move_break(more, "Vamp", 0, vertex, vertex + 2)
    assert (0, vertex + 2) in names(moved) and first_problem(moved) == ""
    assert edits.remove_break(moved, "Vamp", 0, vertex + 2) == style
    with pytest.raises(EdgeError):
        edits.add_break(more, "Vamp", 0, vertex)


def test_an_axis_is_an_undirected_line(style):
    assert edits.set_axis(style, "Vamp", 190).piece("Vamp").pull_axis.axis_deg == 10
    assert edits.set_axis(style, "Vamp", -90).piece("Vamp").pull_axis.axis_deg == 90


def test_confirming_all_leaves_nothing_open(style):
    piece = style.pieces[0]
    doubtful = style.model_copy(
        update={
            "pieces": (
                piece.model_copy(
                    update={
                        "edges": tuple(e.model_copy(update={"confirmed": False}) for e in piece.edges),
                        "pull_axis": piece.pull_axis.model_copy(update={"confirmed": False}),
                    }
                ),
                *style.pieces[1:],
            )
        }
    )
    done = edits.confirm_all(doubtful)
    assert all(e.confirmed for p in done.pieces for e in p.edges)
    assert all(p.pull_axis.confirmed for p in done.pieces)


def test_copied_kinds_are_suggestions(style):
    a, b, *_ = names(style)
    copied = edits.copy_edges(style, "Vamp", {b: edge(style, a)})
    assert edge(copied, b).kind is edge(style, a).kind and not edge(copied, b).confirmed


@pytest.mark.parametrize(
    "bad",
    [
        lambda s: edits.rename_piece(s, "Vamp", "Tongue"),
        lambda s: edits.rename_piece(s, "Vamp", "  "),
        lambda s: edits.set_axis(s, "No such piece", 1),
        lambda s: edits.set_setback(s, "Vamp", [(0, 9999)], 1.0),
        lambda s: edits.set_per_shoe(s, "Vamp", 0),
        lambda s: edits.set_per_shoe(s, "Vamp", 10**21),
        lambda s: edits.set_cloth(s, s.cloths[0].id, usable_width_mm=9999.0),
        lambda s: edits.remove_cloth(s, s.cloths[0].id),
        lambda s: edits.add_cloth(s, s.cloths[0]),
        lambda s: edits.set_cloth(s, "no such cloth", name="x"),
        lambda s: edits.set_rules(s, gap_mm=-3.0),
        lambda s: edits.set_rules(s, gap_mm=1e9),
        lambda s: edits.set_rules(s, edge_margin_mm=-1.0),
        lambda s: edits.set_rules(s, end_loss_mm=-1.0),
        lambda s: edits.put_lay(s, 0, LayData(name="1", gap_mm=-3.0)),
        lambda s: edits.put_lay(s, 0, LayData(name="1", pairs={"37": -2})),
    ],
)
def test_what_makes_no_sense_is_refused_with_a_remedy(style, bad):
    with pytest.raises(EditError) as refusal:
        bad(style)
    assert refusal.value.remedy


def test_cloth_fields_are_checked_as_in_a_file(style):
    cloth = style.cloths[0].id
    assert edits.set_cloth(style, cloth, price_per_m="4.15").cloths[0].price_per_m == Decimal("4.15")
    with pytest.raises(ValidationError):
        edits.set_cloth(style, cloth, width_mm=-1.0)
    flaw = FlawData(ring_mm=((0, 0), (10, 0), (10, 10)))
    marked = edits.add_flaw(style, cloth, flaw)
    assert marked.cloths[0].flaws == (flaw,)
    assert edits.set_flaw(marked, cloth, 0, None).cloths[0].flaws == ()


def test_an_edited_style_is_still_one_that_can_be_saved(style, tmp_path):
    from app.style.file import save_style

    changed = edits.set_hand(edits.rename_piece(style, "Vamp", "Front"), "Front", "right")
    changed = edits.add_flaw(changed, changed.cloths[0].id, FlawData(ring_mm=((0, 0), (9, 0), (9, 9))))
    save_style(changed, tmp_path / "x.style.json")
    assert load_style(tmp_path / "x.style.json") == changed
