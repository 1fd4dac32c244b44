"""The other hand is the mirror image, and mirroring twice changes nothing."""

from dataclasses import replace

import numpy as np

from geometry.backing.derive import derive_backing
from geometry.backing.edges import edge_points
from geometry.mirror import mirrored_keep, mirrored_piece
from geometry.piece import DrillHole, Keep, Mark, Notch, PullAxis, Shaping
from tests.geometry.small_pieces import L_SHAPE, RULES, circle, upper

PIECE = replace(
    upper(L_SHAPE, [1, 2, 3, 4, 5, 6], holes=[circle(4, 12, (20, 20))], hole_setbacks=[1], axis_deg=30.0),
    notches=(Notch(30, 0, 90.0), Notch(0, 40, 0.0, kind="v")),
    marks=(Mark(np.array([(10.0, 10.0), (10.0, 80.0)])),),
    drill_holes=(DrillHole(20, 60, 2.0),),
)


def test_twice_is_nothing():
    back = mirrored_piece(mirrored_piece(PIECE))
    assert back.outline == PIECE.outline
    assert back.edging == PIECE.edging
    assert (back.hand, back.pull_axis, back.notches, back.drill_holes) == (
        PIECE.hand,
        PIECE.pull_axis,
        PIECE.notches,
        PIECE.drill_holes,
    )
    assert np.array_equal(back.marks[0].points_mm, PIECE.marks[0].points_mm)


def test_left_becomes_right_and_the_axis_leans_the_other_way():
    image = mirrored_piece(PIECE)
    assert (image.hand, image.pull_axis.axis_deg) == ("right", -30.0)
    upright = mirrored_piece(replace(PIECE, pull_axis=PullAxis(90.0, "person")))
    assert upright.pull_axis.axis_deg == 90.0


def test_what_is_drawn_on_a_piece_points_the_other_way():
    image = mirrored_piece(PIECE)
    assert [(n.x_mm, n.y_mm, n.angle_deg) for n in image.notches] == [(30, 0, -90.0), (0, -40, 0.0)]
    assert [(d.x_mm, d.y_mm) for d in image.drill_holes] == [(20, -60)]
    along = Keep(np.array([(-10.0, 20.0), (110.0, 20.0)]), False, (50.0, 5.0))
    assert mirrored_keep(along).side_mm == (50.0, -5.0)


def test_every_edge_keeps_its_kind_and_its_points():
    image = mirrored_piece(PIECE)

    def edges(piece):
        return {
            (
                piece.edging.edges[r][k].setback_mm,
                frozenset((x, abs(y)) for x, y in edge_points(piece.outline, piece.edging, r, k)),
            )
            for r in range(2)
            for k in range(len(piece.edging.breaks[r]))
        }

    assert edges(image) == edges(PIECE)


def test_a_partial_backing_is_mirrored_with_its_line():
    line = Keep(np.array([(30.0, -10.0), (30.0, 40.0)]), False, (10.0, 30.0))
    left = derive_backing(PIECE, RULES, shaping=Shaping(keeps=(line,)))
    right = derive_backing(mirrored_piece(PIECE), RULES, shaping=Shaping(keeps=(mirrored_keep(line),)))
    assert np.isclose(left.area_mm2, right.area_mm2)
