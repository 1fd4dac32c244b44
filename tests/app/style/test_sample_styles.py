"""The sample styles open without a warning, say what they show, and can be drawn again."""

from pathlib import Path

import pytest
import shapely

from app.style import pieces as style_pieces
from app.style.file import load_style
from app.style.orders import for_style, read_order
from geometry.dxf.read import read_drawing
from geometry.edge_kinds import EdgeKind
from geometry.findings import Severity
from geometry.sizing.grading import grade_piece
from geometry.sizing.sizes import grade_factors
from sample_styles.draw.__main__ import draw_all

FOLDER = Path(__file__).parents[3] / "sample_styles"
NAMES = ("court", "derby", "boot", "sandal")
QUIET = (Severity.NOTE,)


def style(name):
    return load_style(FOLDER / name / f"{name}.style.json")


@pytest.mark.parametrize("name", NAMES)
def test_a_sample_opens_without_a_warning(name):
    sample = style(name)
    drawing = read_drawing(FOLDER / name / f"{name}.dxf")
    found = (*drawing.findings, *style_pieces.findings(sample, sample.size_run.sizes))
    assert [str(f) for f in found if f.severity not in QUIET] == []
    assert not [left for left in drawing.left_out if "outside every piece" not in left.why]


@pytest.mark.parametrize("name", NAMES)
def test_a_sample_is_confirmed_and_its_order_fits(name):
    sample = style(name)
    assert style_pieces.unconfirmed(sample) == ()
    order = for_style(read_order(FOLDER / name / "order.csv"), sample)
    assert set(order) == set(sample.size_run.sizes)
    assert all(cloth.press.source == "example value, ask your supplier" for cloth in sample.cloths)


@pytest.mark.parametrize("name", NAMES)
def test_a_sample_holds_the_outlines_of_its_drawing(name):
    sample = style(name)
    for piece in read_drawing(FOLDER / name / f"{name}.dxf").pieces:
        drawn = sample.piece(piece.name).drawings[piece.size or sample.size_run.base]
        kept = shapely.Polygon(drawn.outline_mm, drawn.holes_mm)
        assert kept.symmetric_difference(piece.outline.polygon).area < 0.1


@pytest.mark.parametrize("name", NAMES)
def test_every_backing_is_one_piece_inside_its_upper(name):
    sample = style(name)
    for backing in style_pieces.backings(sample, sample.size_run.sizes):
        assert len(backing.outlines) == 1
        upper = backing.upper.outline.polygon
        assert backing.outlines[0].polygon.difference(upper.buffer(1e-6)).is_empty
        if backing.layer == 0:  # a strip behind the eyelets is meant to be small
            assert 0.4 < backing.area_mm2 / upper.area < 0.9


def test_the_samples_are_drawn_again_the_same(tmp_path):
    """Line by line, numbers within what another machine's rounding may change."""
    draw_all(tmp_path)
    for name in NAMES:
        new, old = (folder / name / f"{name}.dxf" for folder in (tmp_path, FOLDER))
        for drawn, kept in zip(new.read_text().splitlines(), old.read_text().splitlines(), strict=True):
            assert drawn == kept or float(drawn) == pytest.approx(float(kept), abs=1e-6)
        order = f"{name}/order.csv"
        assert (tmp_path / order).read_bytes() == (FOLDER / order).read_bytes()
        fresh = load_style(tmp_path / name / f"{name}.style.json")
        assert alike(fresh.model_dump(), style(name).model_dump()), "run python -m sample_styles.draw"


def alike(one, other):
    """Whether two values are the same, numbers to 1e-3."""
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(alike(one[k], other[k]) for k in one)
    if isinstance(one, list | tuple):
        return len(one) == len(other) and all(map(alike, one, other))
    return one == other or (isinstance(one, float) and one == pytest.approx(other, abs=1e-3))


def test_between_them_the_samples_show_what_uppers_are_made_of():
    samples = [style(name) for name in NAMES]
    pieces = [piece for sample in samples for piece in sample.pieces]
    kinds = {edge.kind for piece in pieces for edge in piece.edges}
    assert kinds == set(EdgeKind) - {EdgeKind.CENTRE}
    layers = [piece.layers for piece in pieces]
    assert () in layers
    assert any(len(each) == 2 for each in layers)
    assert any(layer.keep and not layer.keep.closed for each in layers for layer in each)
    assert any(layer.keep and layer.keep.closed for each in layers for layer in each)
    assert any(drawing.holes_mm for piece in pieces for drawing in piece.drawings.values())
    for sample in samples:
        assert any(piece.hold_line and piece.hold_line.limit_mm for piece in sample.pieces)


def test_the_sandal_is_drawn_in_inches_and_the_boot_in_six_sizes_with_halves():
    sandal = read_drawing(FOLDER / "sandal/sandal.dxf")
    assert sandal.unit == "in"
    strap = next(p for p in sandal.pieces if p.name == "Ankle strap")
    x0, _, x1, _ = strap.outline.bbox_mm
    assert x1 - x0 == pytest.approx(291, abs=1)
    boot = read_drawing(FOLDER / "boot/boot.dxf")
    assert {p.size for p in boot.pieces} == {"36", "37", "38", "39", "40", "41"}
    unfolded = {f.piece for f in boot.findings if f.code == "UNFOLDED"}
    assert unfolded == {"TOE CAP", "TONGUE"}
    cap = next(p for p in boot.pieces if p.name == "TOE CAP").outline.polygon
    assert (
        cap.symmetric_difference(
            shapely.affinity.scale(cap, 1, -1, origin=(0, (cap.bounds[1] + cap.bounds[3]) / 2))
        ).area
        < 1e-3
    )


def test_the_boot_as_drawn_in_its_sizes_agrees_with_the_grade_of_its_base():
    """Two ways to the same sizes: control points drawn back, and allowances off, grade, on again."""
    sample = style("boot")
    rules = style_pieces.draft_rules(sample)
    for name in ("SHAFT OUTER", "VAMP", "COUNTER"):
        base = style_pieces.upper_piece(sample, name, "37", "left")
        for size in ("36", "41"):
            drawn = style_pieces.upper_piece(sample, name, size, "left")
            graded = grade_piece(base, rules, grade_factors("paris", "37", size, 220.0))
            dx = drawn.outline.bbox_mm[0] - graded.outline.bbox_mm[0]
            dy = drawn.outline.bbox_mm[1] - graded.outline.bbox_mm[1]
            apart = shapely.hausdorff_distance(
                drawn.outline.polygon.exterior, graded.outline.moved(dx, dy).polygon.exterior
            )
            assert apart < 0.5, (name, size)
