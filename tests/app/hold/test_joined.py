"""A backing that runs over a seam holds the neighbouring piece too, by the line and over the whole piece."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.hold.field import FieldOptions, field_question
from app.hold.verdicts import style_hold
from app.style import edits
from app.style.drafting import draw
from app.style.file import load_style
from app.style.whole.drawn_shapes import add_shape
from geometry.edge_kinds import EdgeKind

COURT = Path(__file__).parents[3] / "sample_styles" / "court" / "court.style.json"


@pytest.fixture(scope="module")
def style():
    """Two pieces of 100 x 60 mm sewn edge to edge, the pull along both, a hold line on the second."""
    made = load_style(COURT)
    for name, x in (("Back", 0.0), ("Front", 100.0)):
        corners = [(x, 1000.0), (x + 100, 1000.0), (x + 100, 1060.0), (x, 1060.0)]
        made = edits.set_axis(add_shape(made, name, corners), name, 0.0)
        made = edits.set_edge_kind(made, name, [(0, k) for k in range(4)], EdgeKind.RAW)
        made = edits.set_setback(made, name, [(0, k) for k in range(4)], 0.0)
    return edits.set_hold_line(made, "Front", (105.0, 1030.0), (195.0, 1030.0))


def gives(style, piece="Front"):
    held = next(each for each in style_hold(style).judged if each.called == piece)
    return held.hold.low_mm, held.hold.high_mm


def covered(style, piece, chosen="Front"):
    question = field_question(style, FieldOptions(piece=chosen))
    layers = next(p for p in question.upper.pieces if p.name == piece).layers
    region = next(p for p in question.upper.pieces if p.name == piece).region
    return [layer.region.intersection(region).area for layer in layers]


def test_the_neighbour_gives_as_if_it_were_backed_by_itself(style):
    joined = draw.join(style, "Back", ["Front"])
    assert not joined.piece("Front").layers
    assert gives(joined) == pytest.approx(gives(style))
    alone = style.model_copy(
        update={"pieces": tuple(p.model_copy(update={"layers": ()}) for p in style.pieces)}
    )
    assert gives(alone)[1] > 1.2 * gives(joined)[1]


def test_the_field_lays_the_cloth_behind_the_neighbour_too(style):
    joined = draw.join(style, "Back", ["Front"])
    assert covered(joined, "Front") == pytest.approx([6000.0], rel=1e-3)


def test_it_holds_in_a_graded_size_as_well(style):
    joined = draw.join(style, "Back", ["Front"])
    question = field_question(joined, FieldOptions(piece="Front", size="40"))
    (front,) = question.upper.pieces
    (layer,) = front.layers
    assert layer.region.intersection(front.region).area == pytest.approx(front.region.area, rel=0.01)


def test_cloth_counts_once_where_two_uppers_lap(style):
    lapped = style.piece("Front")
    drawing = lapped.drawings["37"]
    wider = drawing.model_copy(
        update={"outline_mm": tuple((x - 10.0 if x == 100.0 else x, y) for x, y in drawing.outline_mm)}
    )
    piece = lapped.model_copy(update={"drawings": {"37": wider}, "assembled": True})
    back = style.piece("Back").model_copy(update={"assembled": True})
    others = tuple(p.model_copy(update={"assembled": False}) for p in style.pieces[:-2])
    joined = draw.join(style.model_copy(update={"pieces": (*others, back, piece)}), "Back", ["Front"])
    assert covered(joined, "Front", "") == pytest.approx([6000.0], rel=2e-3)  # its 10 mm lap is the back's
