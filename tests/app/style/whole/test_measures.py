"""Lengths, areas and seams of drawn figures that a ruler would give too."""

from __future__ import annotations

import pytest

from app.style import edits
from app.style.edits import EditError
from app.style.file import load_style
from app.style.whole import drawn_shapes, measures, seams, sizes
from geometry.edge_kinds import EdgeKind
from tests.app.style.whole.samples import SAMPLES

DERBY = load_style(SAMPLES["derby"])


def two_strips(first_mm: float, second_mm: float):
    """Two strips whose long sides are closed seams without allowance."""
    style = DERBY
    for name, length in (("A", first_mm), ("B", second_mm)):
        style = drawn_shapes.add_rectangle(style, name, length, 30.0)
        names = [(0, e.start) for e in style.piece(name).edges]
        style = edits.set_edge_kind(style, name, names, EdgeKind.RAW)
        style = edits.set_edge_kind(style, name, names[:1], EdgeKind.SEAM)
        style = edits.set_allowance(style, name, names, 0.0)
    return style


def test_a_rectangle_measures_what_a_ruler_says():
    style = two_strips(120.0, 120.0)
    measured = measures.measure_piece(style, "A", "42")
    assert measured.area_mm2 == pytest.approx(3600.0) and measured.perimeter_mm == pytest.approx(300.0)
    assert (measured.along_mm, measured.across_mm) == pytest.approx((120.0, 30.0))
    assert [edge.length_mm for edge in measured.edges] == pytest.approx([120.0, 30.0, 120.0, 30.0])


def test_the_net_line_lies_inside_the_allowance():
    style = two_strips(120.0, 120.0)
    names = [(0, e.start) for e in style.piece("A").edges]
    style = edits.set_allowance(style, "A", names, 4.0)
    assert measures.measure_piece(style, "A", "42").edges[0].net_mm == pytest.approx(112.0)


@pytest.mark.parametrize(
    ("second", "ease", "fits"), [(120.0, 0.0, True), (117.0, 0.0, False), (117.0, 3.0, True)]
)
def test_sewn_edges_fit_where_they_differ_by_the_ease_that_is_meant(second, ease, fits):
    style = two_strips(120.0, second)
    style = seams.sew(style, ("A", 0, 0), ("B", 0, 0), ease)
    (seam,) = seams.measure_seams(style, "42")
    assert seam.difference_mm == pytest.approx(120.0 - second) and seam.fits is fits
    assert [f.code for f in seams.seam_findings(style, "42")] == ([] if fits else ["SEAM_DIFFERS"])


def test_seams_are_measured_in_every_size_and_proposed_where_lengths_are_alike():
    found = seams.propose_seams(DERBY)
    names = {frozenset((s.seam.first[0], s.seam.second[0])) for s in found}
    assert frozenset(("Quarter outer", "Quarter inner")) in names, "the closed back seam"
    best = found[0].seam
    style = seams.sew(DERBY, best.first, best.second)
    for size in style.size_run.sizes:
        assert seams.measure_seams(style, size)[0].fits
    assert best not in [s.seam for s in seams.propose_seams(style)]
    drawn = sizes.draw_size(style, "44")
    assert seams.measure_seams(drawn, "44")[0].first_mm == pytest.approx(
        seams.measure_seams(style, "44")[0].first_mm, abs=0.01
    )


def test_a_seam_whose_edge_is_gone_is_told():
    style = seams.sew(two_strips(120.0, 120.0), ("A", 0, 0), ("B", 0, 0))
    style = edits.remove_break(style, "A", 0, 0)
    assert seams.measure_seams(style, "42") == ()
    assert [f.code for f in seams.seam_findings(style, "42")] == ["SEAM_LOST"]
    with pytest.raises(EditError, match="no such edge"):
        seams.sew(style, ("A", 0, 0), ("B", 0, 0))


def test_an_edge_is_sewn_once():
    style = seams.sew(two_strips(120.0, 120.0), ("A", 0, 0), ("B", 0, 0))
    with pytest.raises(EditError, match="already"):
        seams.sew(style, ("A", 0, 0), ("B", 0, 2))
    with pytest.raises(EditError, match="itself"):
        seams.sew(style, ("A", 0, 0), ("A", 0, 0))
    assert seams.unsew(style, ("B", 0, 0), ("A", 0, 0)).seams == ()


def test_two_sizes_and_two_versions_part_by_what_was_moved():
    by_size = {c.piece: c for c in measures.compare_sizes(DERBY, "42", "45")}
    assert by_size["Vamp"].area_mm2[1] > by_size["Vamp"].area_mm2[0] and by_size["Vamp"].apart_mm > 3.0
    assert measures.compare_versions(DERBY, DERBY, "42")[0].apart_mm == 0.0
    piece = DERBY.piece("Tongue")
    drawing = piece.drawings["42"]
    top = max(range(len(drawing.outline_mm)), key=lambda i: drawing.outline_mm[i][1])
    ring = list(drawing.outline_mm)
    ring[top] = (ring[top][0], ring[top][1] + 6.0)
    moved = piece.model_copy(
        update={"drawings": {"42": drawing.model_copy(update={"outline_mm": tuple(ring)})}}
    )
    other = DERBY.model_copy(update={"pieces": tuple(moved if p is piece else p for p in DERBY.pieces)})
    found = {c.piece: c for c in measures.compare_versions(DERBY, other, "42")}
    assert 4.0 < found["Tongue"].apart_mm <= 6.0 and found["Tongue"].where_mm == pytest.approx(ring[top])
    assert found["Vamp"].apart_mm == 0.0
