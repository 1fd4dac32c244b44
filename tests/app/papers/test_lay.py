"""A lay on paper and for machines: what was verified, and nothing else, at its true size."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import ezdxf
import numpy as np
import pytest
from pypdf import PdfReader
from shapely.geometry import LineString, Point, Polygon

from app.errors import UnverifiedError
from app.lay.job import LayJob, document_of, judged, problem_of
from app.papers import registry
from app.papers.lay_full_size import LEADER_MM, full_size_pages
from app.papers.layout.sheets import MARGIN_MM
from app.papers.pictures.lays import lay_art
from app.papers.shown import Laid
from app.style.model import FlawData, NotchData, Style
from nesting.free import first_layout
from nesting.verify import verify_document
from nesting.verify.fault import Fault, FaultKind, Verdict

MM = 72 / 25.4


def lay_of(style: Style, pairs: dict[str, int], **job: Any) -> tuple[dict[str, Any], Verdict]:
    """A first layout, verified."""
    what = LayJob(style, pairs, **job)
    problem = problem_of(what)
    lay = first_layout.solve(problem)
    verdict = judged(problem, lay)
    assert verdict.ok, verdict.faults
    return document_of(what, problem, lay), verdict


def pen_strokes(text: str) -> list[list[tuple[int, np.ndarray]]]:
    """A plotter of our own: (pen, units) of every stroke, a list a frame; it minds the manners."""
    assert text.startswith("IN;")
    frames: list[list[tuple[int, np.ndarray]]] = [[]]
    pen, down, at = 0, False, None
    words = [w.strip() for w in text.split(";") if w.strip()]
    assert words[-2:] == ["PU", "SP0"], "the pen is lifted, then put away"
    for word in words[1:]:
        name, numbers = word[:2], [int(n) for n in word[2:].split(",") if n]
        if name == "SP":
            assert not down, "the pen is changed up"
            pen = numbers[0]
        elif name == "PU":
            down = False
            if numbers:
                at = np.array([numbers])
        elif name == "PD":
            assert pen, "something is drawn without a pen"
            points = np.array(numbers).reshape(-1, 2)
            if down:
                last_pen, last = frames[-1][-1]
                frames[-1][-1] = (last_pen, np.concatenate([last, points]))
            else:
                frames[-1].append((pen, np.concatenate([at, points])))
            down = True
        elif name == "PG":
            assert pen == 0
            frames.append([])
        else:
            assert word == "PA", f"{word} is no instruction of ours"
    return frames


@pytest.fixture
def document(plain_style: Style) -> tuple[dict[str, Any], Verdict]:
    return lay_of(plain_style, {"36": 2, "37": 3})


def test_an_unverified_lay_leaves_nothing_behind(document: Any, plain_style: Style, tmp_path: Path) -> None:
    doc, _ = document
    fault = Fault(FaultKind.OVERLAP, (0, 1), amount_mm=0.4, message="strap 37 left overlaps tongue by 0.4 mm")
    with pytest.raises(UnverifiedError, match=r"overlaps tongue.*nothing was written"):
        registry.write(Laid(doc, Verdict((fault,)), plain_style), tmp_path)
    assert not list(tmp_path.iterdir())


def test_all_files_are_written(document: Any, plain_style: Style, tmp_path: Path) -> None:
    doc, verdict = document
    names = {path.name for path in registry.write(Laid(doc, verdict, plain_style), tmp_path)}
    assert names == {"lay.pdf", "lay-1to1.pdf", "lay.dxf", "lay.plt", "lay.svg", "lay-unsplit.plt"}


def test_the_plan_tells_figures_assumptions_and_verdict(
    document: Any, plain_style: Style, tmp_path: Path
) -> None:
    doc, verdict = document
    registry.write(Laid(doc, verdict, plain_style), tmp_path)
    text = " ".join(page.extract_text() for page in PdfReader(tmp_path / "lay.pdf").pages)
    for words in (
        f"{doc['length_mm'] / 1000:.3f} m",
        f"{doc['yield'] * 100:.1f} %",
        "1400 mm",
        "Verdict: verified: gap 2 mm",
        "margin at the edges 5 mm",
        "curves within 0.05 mm",
        "glue side up",
        "2 L + 2 R",
        "3 L + 3 R",
        "strap",
        "along the roll",
    ):
        assert words in text, words


def test_the_plan_tells_what_a_longer_search_is_likely_to_add(
    document: Any, plain_style: Style, tmp_path: Path
) -> None:
    doc, verdict = document
    likely = "60 s of search are likely to add 3.2 ± 1.3 points to the yield."
    for longer, told in (
        ({"seconds": 60.0, "gain": 0.032, "scatter": 0.013}, True),
        ({"seconds": 60.0, "gain": 0.0, "scatter": 0.005}, False),
        (None, False),
    ):
        registry.write(Laid({**doc, "longer_search": longer}, verdict, plain_style), tmp_path)
        text = " ".join(page.extract_text() for page in PdfReader(tmp_path / "lay.pdf").pages)
        assert (likely in " ".join(text.split())) == told


def test_cut_lines_of_the_drawing_file_are_the_verified_outlines(
    document: Any, plain_style: Style, tmp_path: Path
) -> None:
    doc, verdict = document
    registry.write(Laid(doc, verdict, plain_style), tmp_path)
    space = ezdxf.readfile(tmp_path / "lay.dxf").modelspace()
    lines = [line for line in space.query('LWPOLYLINE[layer=="cut"]') if line.closed]
    found = sorted(
        (Polygon(line.get_points("xy")).centroid.x, Polygon(line.get_points("xy")).area) for line in lines
    )
    asked = sorted(
        (Polygon(p["outline_mm"]).centroid.x, Polygon(p["outline_mm"]).area) for p in doc["placements"]
    )
    assert np.array(found) == pytest.approx(np.array(asked), abs=1e-3)
    assert {e.dxf.layer for e in space} <= {"cut", "notch", "axis", "text", "roll-edge"}
    names = {t.dxf.text for t in space.query("TEXT")}
    assert {"strap", "36 L", "37 R"} <= names


def test_notches_of_the_backing_are_cut_where_it_lies(plain_style: Style, tmp_path: Path) -> None:
    doc, verdict = lay_of(plain_style, {"37": 1})
    registry.write(Laid(doc, verdict, plain_style), tmp_path)
    space = ezdxf.readfile(tmp_path / "lay.dxf").modelspace()
    nicks = [LineString(line.get_points("xy")) for line in space.query('LWPOLYLINE[layer=="notch"]')]
    straps = [Polygon(p["outline_mm"]) for p in doc["placements"] if p["piece"] == "strap"]
    assert len(nicks) == len(straps) == 2
    for strap in straps:
        (nick,) = [nick for nick in nicks if strap.buffer(0.01).covers(nick)]
        assert strap.boundary.distance(Point(nick.coords[0])) < 0.01
        assert nick.length == pytest.approx(NotchData(x_mm=0, y_mm=0).depth_mm)


def test_the_plotter_file_cuts_every_outline_once(document: Any, plain_style: Style, tmp_path: Path) -> None:
    doc, verdict = document
    registry.write(Laid(doc, verdict, plain_style), tmp_path)
    around = sum(Polygon(p["outline_mm"]).length for p in doc["placements"])
    (whole,) = pen_strokes((tmp_path / "lay-unsplit.plt").read_text())
    closed = [s for pen, s in whole if pen == 1 and len(s) > 2 and (s[0] == s[-1]).all()]
    assert len(closed) == len(doc["placements"])
    length = sum(np.hypot(*np.diff(s, axis=0).T).sum() for s in closed) / 40.0
    assert length == pytest.approx(around, rel=1e-3)
    pens = [pen for pen, _ in whole]
    assert pens == sorted(pens, reverse=True), "what is drawn comes before what is cut"


def test_frames_stay_within_16_bits_and_lose_nothing(plain_style: Style, tmp_path: Path) -> None:
    doc, verdict = lay_of(plain_style, {"36": 20, "37": 20})
    assert doc["length_mm"] > 820.0
    registry.write(Laid(doc, verdict, plain_style), tmp_path)
    frames = pen_strokes((tmp_path / "lay.plt").read_text())
    assert len(frames) >= 4  # the roll is wider than a frame too
    for frame in frames:
        units = np.concatenate([stroke for _, stroke in frame])
        assert units.min() >= 0
        assert units.max() <= 32767
        assert np.hypot(*(units.max(axis=0) - units.min(axis=0))) > 0
    whole = sum(
        np.hypot(*np.diff(s, axis=0).T).sum()
        for pen, s in pen_strokes((tmp_path / "lay-unsplit.plt").read_text())[0]
        if pen == 1
    )
    pieces = sum(np.hypot(*np.diff(s, axis=0).T).sum() for frame in frames for pen, s in frame if pen == 1)
    assert whole < pieces < 1.2 * whole  # what lies in an overlap is drawn on both frames


def test_svg_is_as_large_as_the_lay(document: Any, plain_style: Style, tmp_path: Path) -> None:
    doc, verdict = document
    registry.write(Laid(doc, verdict, plain_style), tmp_path)
    root = ElementTree.parse(tmp_path / "lay.svg").getroot()
    assert float(root.get("width").removesuffix("mm")) == pytest.approx(doc["length_mm"], abs=1e-3)
    assert float(root.get("height").removesuffix("mm")) == pytest.approx(1400.0, abs=1e-3)
    cut = next(g for g in root.iter("{http://www.w3.org/2000/svg}g") if g.get("id") == "cut")
    rings = [np.array(re.findall(r"-?\d+\.\d+", path.get("d")), dtype=float).reshape(-1, 2) for path in cut]
    areas = sorted(Polygon(ring).area for ring in rings)
    assert areas == pytest.approx(sorted(Polygon(p["outline_mm"]).area for p in doc["placements"]), abs=0.1)


def test_full_size_pages_hold_the_whole_lay(document: Any, plain_style: Style, tmp_path: Path) -> None:
    doc, verdict = document
    registry.write(Laid(doc, verdict, plain_style), tmp_path)
    (page,) = PdfReader(tmp_path / "lay-1to1.pdf").pages
    assert float(page.mediabox[2]) == pytest.approx(
        (doc["length_mm"] + LEADER_MM + 2 * MARGIN_MM) * MM, abs=1e-3
    )
    assert float(page.mediabox[3]) == pytest.approx((1400.0 + 2 * MARGIN_MM) * MM, abs=1e-3)


def test_a_long_lay_goes_on_to_further_pages(document: Any) -> None:
    doc, verdict = document
    long = replace(lay_art(doc), length_mm=12_000.0)
    pages = full_size_pages({**doc, "length_mm": 12_000.0}, verdict, long, None)
    assert len(pages) == 3
    assert all(page.width_mm <= 5000.0 for page in pages)
    shown = sum(page.width_mm - LEADER_MM - 2 * MARGIN_MM for page in pages)
    assert shown == pytest.approx(12_000.0 + 2 * 20.0)


def test_flaws_are_drawn_and_kept_on_their_own_layer(plain_style: Style, tmp_path: Path) -> None:
    ring = ((40.0, 300.0), (120.0, 300.0), (120.0, 380.0), (40.0, 380.0))
    cloth = plain_style.cloths[0].model_copy(update={"flaws": (FlawData(ring_mm=ring),)})
    style = plain_style.model_copy(update={"cloths": (cloth,)})
    doc, verdict = lay_of(style, {"37": 2})
    assert verify_document(doc).ok
    registry.write(Laid(doc, verdict, style), tmp_path)
    (flaw,) = ezdxf.readfile(tmp_path / "lay.dxf").modelspace().query('LWPOLYLINE[layer=="flaw"]')
    assert [tuple(p) for p in flaw.get_points("xy")] == list(ring)


def test_a_lay_without_style_hand_or_size_is_drawn(document: Any, tmp_path: Path) -> None:
    doc, verdict = document
    bare = {
        key: doc[key]
        for key in ("format", "version", "roll", "gap_mm", "length_mm", "net_area_mm2", "yield", "plies")
    }
    bare["placements"] = [
        {"piece": "7", "rotation_deg": 0.0, "outline_mm": p["outline_mm"]} for p in doc["placements"]
    ]
    registry.write(Laid(bare, verdict), tmp_path)
    assert "20" in PdfReader(tmp_path / "lay.pdf").pages[0].extract_text()


def test_a_shape_that_lies_often_is_drawn_once(plain_style: Style) -> None:
    doc, _ = lay_of(plain_style, {"37": 30})
    art = lay_art(doc)
    assert len(art.pieces) == 120
    assert len({id(piece.drawing) for piece in art.pieces}) <= 8
