"""Pieces, sizes and hands are compared with one another."""

from dataclasses import replace

import numpy as np

from geometry.backing.derive import derive_backing
from geometry.checks.sets import check_assembled, check_hands, check_sizes
from geometry.outline import Outline
from geometry.piece import DrawnPiece, Mark
from geometry.sizing.grading import grade_piece
from tests.geometry.small_pieces import RULES, codes, rectangle, smooth, upper


def pair(gap):
    """Two pieces drawn assembled, the second lying 20 mm over the first; the backing of the first
    ends ``gap`` mm further in than that of the second."""
    under = replace(upper(rectangle(100, 60), [4, 20 - 2 - gap, 4, 4]), name="under")
    over = upper(rectangle(100, 60), [4, 4, 4, 2])
    over = replace(over, name="over", outline=over.outline.moved(80, 0))
    return [derive_backing(p, RULES) for p in (under, over)]


def test_two_edges_one_above_another_are_told():
    found = check_assembled(pair(0.0))
    assert "EDGES_STACKED" in codes(found)
    assert {x for f in found for x, _ in f.where_mm} & {82.0}


def test_edges_far_enough_apart_are_not():
    across = [w for f in check_assembled(pair(6.0)) for w in f.where_mm if abs(w[1] - 30) < 10]
    assert across == []


def test_pieces_that_do_not_overlap_are_not_compared():
    a, b = pair(0.0)
    moved = derive_backing(replace(b.upper, outline=b.upper.outline.moved(500, 0)), RULES)
    assert check_assembled([a, moved]) == ()


def sewn(size, scale, inset):
    piece = upper(np.multiply(rectangle(100, 60), scale), [4] * 4)
    line = np.array([(5.0, inset), (100.0 * scale - 5.0, inset)])
    return replace(piece, size=size, marks=(Mark(line, "sew"),))


def test_a_graded_allowance_is_told():
    found = check_sizes([sewn("37", 1.0, 8.0), sewn("41", 1.1, 8.8)])
    assert codes(found) == {"ALLOWANCE_GRADED"}
    assert check_sizes([sewn("37", 1.0, 8.0), sewn("41", 1.1, 8.0)]) == ()


def test_a_larger_size_that_is_smaller_is_told():
    assert "SIZES_OUT_OF_ORDER" in codes(check_sizes([sewn("37", 1.1, 8.0), sewn("38", 1.0, 8.0)]))


def test_sizes_graded_here_have_nothing_to_tell():
    base = upper(smooth(120, [6, 3, 2], [0, 1, 2]), [4], [0])
    sizes = [replace(grade_piece(base, RULES, (k, k)), size=s) for k, s in ((1.0, "37"), (1.03, "38"))]
    assert check_sizes(sizes) == ()


def test_a_right_piece_drawn_as_a_copy_of_the_left_one_is_an_error():
    left = Outline.make(smooth(160, [9, 6, 4], [0.5, 1.5, 2.0]))
    drawn = DrawnPiece("left", left)
    assert codes(check_hands(drawn, DrawnPiece("right", left.moved(300, 20)))) == {"HANDS_ALIKE"}
    assert codes(check_hands(drawn, DrawnPiece("right", left.mirrored().moved(300, 20)))) == {"BOTH_HANDS"}
    twin = DrawnPiece("right", left.mirrored().turned(180).moved(9, 9))
    assert codes(check_hands(drawn, twin)) == {"BOTH_HANDS"}
    assert check_hands(drawn, DrawnPiece("other", Outline.make([(0, 0), (9, 0), (9, 5)]))) == ()


def test_a_piece_that_is_its_own_mirror_image_may_be_copied():
    ring = Outline.make(rectangle(100, 60))
    assert check_hands(DrawnPiece("left", ring), DrawnPiece("right", ring.moved(200, 0))) == ()
