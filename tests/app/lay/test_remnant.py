"""A prototype pair from a remnant drawn in a DXF, from the drawing to a lay that verifies."""

import ezdxf
import numpy as np
from shapely.geometry import Polygon

from app.__main__ import main
from app.lay.remnant_file import read_remnant
from app.style.samples import sample
from nesting.files import lay_file
from nesting.verify import verify_document

EDGE = [(0, 0), (520, 30), (760, -40), (900, 200), (640, 330), (600, 480), (250, 520), (40, 400)]


def drawn(path, unit=4):
    drawing = ezdxf.new("R2000")
    drawing.header["$INSUNITS"] = unit
    drawing.modelspace().add_lwpolyline(EDGE, close=True)
    drawing.saveas(path)
    return path


def laid(tmp_path, *words):
    style = str(sample("court").style)
    return main(
        ["lay", style, "--pairs", "37:1", "--seconds", "2", "-o", str(tmp_path / "lay"), *map(str, words)]
    )


def test_one_pair_lies_on_the_remnant_and_clear_of_its_edge(tmp_path):
    assert laid(tmp_path, "--remnant", drawn(tmp_path / "remnant.dxf")) == 0
    document = lay_file.read(tmp_path / "lay" / "lay.json")
    assert verify_document(document).ok
    cloth = Polygon(np.array(EDGE) - np.array(EDGE).min(axis=0))
    pieces = [Polygon(at["outline_mm"]) for at in document["placements"]]
    assert len(pieces) == 6 and all(cloth.contains(piece) for piece in pieces)
    assert min(piece.distance(cloth.exterior) for piece in pieces) >= document["edge_margin_mm"] - 1e-3


def test_a_remnant_in_doubtful_units_is_asked_about_and_can_be_told(tmp_path, capsys):
    path = drawn(tmp_path / "remnant.dxf", unit=6)
    assert laid(tmp_path, "--remnant", path) == 2
    assert "--remnant-unit" in capsys.readouterr().err
    assert read_remnant(path, "mm").bbox_mm[2] == 900.0


def test_pairs_that_do_not_go_on_it_are_said_so(tmp_path, capsys):
    path = drawn(tmp_path / "remnant.dxf")
    style = str(sample("court").style)
    words = ["--pairs", "37:9", "--seconds", "1", "--remnant", str(path), "-o", str(tmp_path / "lay")]
    assert main(["lay", style, *words]) == 2
    assert "remnant.dxf: the pairs do not all go on the remnant" in capsys.readouterr().err
    assert not (tmp_path / "lay").exists()
