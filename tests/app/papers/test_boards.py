"""Boards measure true, name everything a pattern maker needs, and tiles go together."""

from __future__ import annotations

import json
import re
from pathlib import Path

import ezdxf
import numpy as np
import pypdfium2 as pdfium
import pytest
from pypdf import PdfReader
from shapely.geometry import LineString, Polygon

from app.__main__ import main
from app.commands.backing import backing_drawing
from app.errors import UsageError
from app.papers import boards
from app.papers.boards import board_pages
from app.papers.formats.drawing import Circle, Drawing, Line, Page, Text
from app.papers.formats.lettering import extent_mm
from app.papers.formats.pdf import write_pdf
from app.papers.layout import pens
from app.papers.layout.frame import STRIP_MM
from app.papers.layout.sheets import MARGIN_MM
from app.papers.layout.tiles import draw_tile, grid_of, window_of
from app.papers.pictures.board_cards import BoardCard, cards_of
from app.papers.registry import papers_of
from app.papers.shown import Drafted
from app.style.drafting import draw, where
from app.style.file import load_style, save_style
from app.style.model import EdgeData, KeepData, LayerData, PieceData, PullAxisData, SizeDrawing, Style
from app.style.pieces import piece_backings, upper_piece, uppers_and_backings
from geometry.edge_kinds import EdgeKind

SAMPLES = Path(__file__).parents[3] / "sample_styles"
DPI = 300


def _gray(path: Path, page: int, dpi: int = DPI) -> np.ndarray:
    image = pdfium.PdfDocument(path)[page].render(scale=dpi / 72.0, grayscale=True).to_numpy()
    return image.reshape(image.shape[0], image.shape[1])


def _longest_runs(dark: np.ndarray) -> np.ndarray:
    """Longest run of dark pixels in every column."""
    best = np.zeros(dark.shape[1], dtype=int)
    run = np.zeros(dark.shape[1], dtype=int)
    for row in dark:
        run = (run + 1) * row
        best = np.maximum(best, run)
    return best


def _square_sides_mm(gray: np.ndarray) -> tuple[float, float]:
    """Find the check square by its sides, straight lines 100 mm long; return width and height."""
    found = []
    for dark in (gray < 190, (gray < 190).T):
        runs = _longest_runs(dark) / DPI * 25.4
        sides = np.flatnonzero((runs > 99.6) & (runs < 101.0))
        assert len(sides) >= 2, "no line of 100 mm on the sheet"
        groups = np.split(sides, np.flatnonzero(np.diff(sides) > 2) + 1)
        middles = np.array([g.mean() for g in groups]) / DPI * 25.4
        gaps = [b - a for i, a in enumerate(middles) for b in middles[i + 1 :]]
        found.append(min(gaps, key=lambda gap: abs(gap - 100.0)))
    return found[0], found[1]


@pytest.fixture(scope="module")
def court() -> Style:
    return load_style(SAMPLES / "court" / "court.style.json")


def _is_tile(page: Page) -> bool:
    return any(isinstance(mark, Text) and mark.text.startswith("Tile ") for mark in page.drawing.walk())


def _large(style: Style, factor: float = 1.7) -> Style:
    """The style with its first piece too large for A4 in any way."""
    piece = style.pieces[0]
    drawings = {
        size: SizeDrawing(
            outline_mm=tuple((x * factor, y * factor) for x, y in d.outline_mm),
            notches=tuple(
                n.model_copy(update={"x_mm": n.x_mm * factor, "y_mm": n.y_mm * factor}) for n in d.notches
            ),
        )
        for size, d in piece.drawings.items()
    }
    large = piece.model_copy(update={"drawings": drawings, "layers": (LayerData(),)})
    return style.model_copy(update={"pieces": (large,)})


@pytest.mark.parametrize(
    "options",
    [{}, {"sheet": "roll:900"}, {"tiled": True}, {"sheet": "letter", "tiled": True}],
)
def test_the_square_of_every_sheet_measures_100_mm(court: Style, tmp_path: Path, options: dict) -> None:
    style = _large(court) if options.get("tiled") else court
    boards.write(Drafted(style, uppers_and_backings(style, ["37"], ["left"]), **options), tmp_path)
    pages = len(PdfReader(tmp_path / "boards.pdf").pages)
    assert pages >= 1
    for page in range(min(pages, 4)):
        assert _square_sides_mm(_gray(tmp_path / "boards.pdf", page)) == pytest.approx(
            (100.0, 100.0), abs=0.2
        )


def test_no_square_lies_across_a_board_that_fills_its_sheet(court: Style, tmp_path: Path) -> None:
    """It has a sheet of its own, before them; they have a length of 100 mm each way."""
    pages = boards.pages(Drafted(court, uppers_and_backings(court, ["37"], ["left"]), sheet="A4"))
    write_pdf(pages[:1], tmp_path / "first.pdf", title="first")
    assert _square_sides_mm(_gray(tmp_path / "first.pdf", 0)) == pytest.approx((100.0, 100.0), abs=0.2)
    squares = 0
    for page in pages:
        lines = [mark for mark in page.drawing.walk() if isinstance(mark, Line)]
        check = [mark for mark in lines if mark.layer == "check"]
        boxes = [mark.points_mm for mark in check if mark.closed]
        if boxes:
            squares += 1
            assert np.ptp(boxes[0], axis=0) == pytest.approx([100.0, 100.0])
            square = Polygon(boxes[0])
            for mark in lines:
                assert mark.layer == "check" or not square.intersects(LineString(mark.points_mm))
        else:
            spans = [tuple(np.ptp(mark.points_mm, axis=0).round(9).tolist()) for mark in check]
            assert (100.0, 0.0) in spans and (0.0, 100.0) in spans
    assert 1 < squares < len(pages)


@pytest.mark.parametrize(("sheet", "sides_mm"), [("A2", (420, 594)), ("arch-c", (457.2, 609.6))])
def test_whole_sheets_have_the_size_of_the_paper(
    court: Style, tmp_path: Path, sheet: str, sides_mm: tuple[float, float]
) -> None:
    boards.write(Drafted(court, uppers_and_backings(court, ["37"], ["left"]), sheet=sheet), tmp_path)
    for page in PdfReader(tmp_path / "boards.pdf").pages:
        size = sorted(float(v) for v in page.mediabox[2:])
        assert size == pytest.approx([side * 72 / 25.4 for side in sides_mm], abs=1e-3)


def test_a_roll_is_as_long_as_its_boards_need(court: Style, tmp_path: Path) -> None:
    boards.write(Drafted(court, uppers_and_backings(court, ["37"], ["left"]), sheet="roll:900"), tmp_path)
    (page,) = PdfReader(tmp_path / "boards.pdf").pages
    assert float(page.mediabox[2]) == pytest.approx(900 * 72 / 25.4, abs=1e-3)
    assert float(page.mediabox[3]) < 1500 * 72 / 25.4


def test_a_board_names_piece_size_hand_count_and_glue_side(court: Style, tmp_path: Path) -> None:
    boards.write(Drafted(court, uppers_and_backings(court, ["37"], ["right"]), sheet="A3"), tmp_path)
    text = " ".join(page.extract_text() for page in PdfReader(tmp_path / "boards.pdf").pages)
    for words in ("Vamp", "37 · RIGHT", "cut 1 per pair in this hand", "glue side up", "pull", "Court C12"):
        assert words in text
    for setback in ("10 lasting", "5.5 folded", "8 underlay"):
        assert setback in text
    assert "Curves true within 0.05 mm" in text
    assert "Drafting check" in text


def test_the_drawing_file_holds_uppers_and_backings_as_derived(court: Style, tmp_path: Path) -> None:
    pairs = uppers_and_backings(court, ["37"], ["left", "right"])
    boards.write(Drafted(court, pairs), tmp_path)
    space = ezdxf.readfile(tmp_path / "boards.dxf").modelspace()

    def areas(layer: str) -> list[float]:
        lines = space.query(f'LWPOLYLINE[layer=="{layer}"]')
        return sorted(Polygon(line.get_points("xy")).area for line in lines if line.closed)

    assert areas("upper") == pytest.approx(sorted(u.outline.area_mm2 for u, _ in pairs), abs=1e-2)
    assert areas("backing") == pytest.approx(sorted(b.area_mm2 for _, b in pairs if b), abs=1e-2)


def test_tiles_go_together_to_the_whole_board(court: Style, tmp_path: Path) -> None:
    """Every line of the board is found on the tiles, where the assembling map says."""
    dpi = 100
    style = _large(court)
    upper = upper_piece(style, style.pieces[0].name, "37", "left")
    cards = cards_of(style, upper, piece_backings(style, upper.name, "37", "left"))
    card = next(c for c in cards if c.width_mm > 220 and c.height_mm > 220)
    whole = Drawing()
    whole.place(card.drawing, 0.0, 0.0)
    write_pdf([Page(card.width_mm, card.height_mm, whole)], tmp_path / "whole.pdf", title="whole")
    expected = _gray(tmp_path / "whole.pdf", 0, dpi) < 150
    pages = [page for page in board_pages(style, [card], {}, tiled=True) if _is_tile(page)]
    write_pdf(pages, tmp_path / "tiles.pdf", title="tiles")
    window = window_of(pages[0].width_mm, pages[0].height_mm, STRIP_MM)
    grid = grid_of(card.width_mm, card.height_mm, window)
    assert len(pages) == len(grid.tiles) > 1
    mm = dpi / 25.4
    seen = np.zeros_like(expected)
    for number, tile in enumerate(grid.tiles):
        ink = _gray(tmp_path / "tiles.pdf", number, dpi) < 200
        ink = ink | np.roll(ink, 1, 0) | np.roll(ink, -1, 0) | np.roll(ink, 1, 1) | np.roll(ink, -1, 1)
        x0, y0, x1, y1 = tile.window_mm
        rows, columns = np.nonzero(expected)
        x, y = columns / mm, card.height_mm - rows / mm
        inside = (x > x0 + 0.5) & (x < x1 - 0.5) & (y > y0 + 0.5) & (y < y1 - 0.5)
        r, c = rows[inside], columns[inside]
        page_x = x[inside] - x0 + MARGIN_MM
        page_y = pages[0].height_mm - (y[inside] - y0 + MARGIN_MM + STRIP_MM)
        hit = ink[np.clip((page_y * mm).round().astype(int), 0, ink.shape[0] - 1),
                  np.clip((page_x * mm).round().astype(int), 0, ink.shape[1] - 1)]  # fmt: skip
        assert hit.mean() > 0.995, f"tile {tile.name} shows something else"
        seen[r, c] = True
    assert seen.sum() == expected.sum()


def test_neighbouring_tiles_have_the_same_crosses_and_trimming_line() -> None:
    card = BoardCard("Vamp", "37", "left", Drawing(), 420.0, 450.0)
    grid = grid_of(card.width_mm, card.height_mm, (190.0, 254.0))
    crosses: dict[str, set[tuple[float, float]]] = {}
    trims: dict[str, set[float]] = {}
    for tile in grid.tiles:
        drawing = Drawing()
        draw_tile(drawing, card, grid, tile, (0.0, 0.0))
        x0, y0 = tile.window_mm[:2]
        marks = list(drawing.walk())
        crosses[tile.name] = {
            (round(m.x_mm + x0, 6), round(m.y_mm + y0, 6)) for m in marks if isinstance(m, Circle)
        }
        upright = [m.points_mm for m in marks if isinstance(m, Line) and m.pen == pens.SPLIT]
        trims[tile.name] = {round(float(p[0][0]) + x0, 6) for p in upright if p[0][0] == p[1][0]}
    assert (grid.rows, grid.columns) == (2, 3)
    for row in "AB":
        for left, right in ((1, 2), (2, 3)):
            shared = crosses[f"{row}{left}"] & crosses[f"{row}{right}"]
            assert len(shared) == 2, "one near either end of the edge"
            assert {x for x, _ in shared} == trims[f"{row}{left}"] & trims[f"{row}{right}"]
    for column in (1, 2, 3):
        assert len(crosses[f"A{column}"] & crosses[f"B{column}"]) == 2


def test_tiles_say_where_they_belong(court: Style, tmp_path: Path) -> None:
    style = _large(court, 2.6)
    boards.write(
        Drafted(style, uppers_and_backings(style, ["37"], ["left"]), sheet="A3", tiled=True), tmp_path
    )
    texts = [page.extract_text() for page in PdfReader(tmp_path / "boards.pdf").pages]
    tiles = [match[0] for text in texts if (match := re.search(r"Tile [A-Z]\d of [A-Z]\d", text))]
    assert tiles[0].startswith("Tile A1 of")
    assert len(set(tiles)) > 1


def test_a_board_too_large_for_the_sheet_is_named(court: Style, tmp_path: Path) -> None:
    style = _large(court)
    with pytest.raises(UsageError, match=rf"{style.pieces[0].name} size 37 needs .* A4; use a larger sheet"):
        boards.write(Drafted(style, uppers_and_backings(style, ["37"], ["left"]), sheet="A4"), tmp_path)
    assert not list(tmp_path.iterdir())


def test_tiles_come_on_sheets_and_not_on_a_roll(court: Style, tmp_path: Path) -> None:
    shown = Drafted(court, uppers_and_backings(court, ["37"]), sheet="roll:900", tiled=True)
    with pytest.raises(UsageError, match="on sheets"):
        boards.write(shown, tmp_path)


def test_partial_layers_vanished_and_strange_names_are_drawn(plain_style: Style, tmp_path: Path) -> None:
    narrow = PieceData(
        name='鞋舌 "<Riemen>" é',
        drawings={"37": SizeDrawing(outline_mm=((0, 0), (120, 0), (120, 9), (0, 9)))},
        edges=tuple(EdgeData(start=i, kind=EdgeKind.RAW, setback_mm=5.0) for i in range(4)),
        pull_axis=PullAxisData(axis_deg=0.0, source="person"),
    )
    keep = KeepData(points_mm=((50.0, -5.0), (50.0, 70.0)), closed=False, side_mm=(80.0, 30.0))
    two = plain_style.pieces[0].model_copy(update={"layers": (LayerData(), LayerData(keep=keep))})
    style = plain_style.model_copy(update={"pieces": (two, narrow)})
    boards.write(Drafted(style, uppers_and_backings(style, ["37"], ["left"])), tmp_path)
    text = " ".join(page.extract_text() for page in PdfReader(tmp_path / "boards.pdf").pages)
    assert "BACKING, layer 2, glue side up" in text
    assert "raw, not backed" in text
    assert "<U+978B>" in text
    assert "NO BACKING IS LEFT" in text


def test_parts_that_lap_are_cut_from_cards_of_their_own(plain_style: Style) -> None:
    name = plain_style.pieces[0].name
    outline = np.array(plain_style.pieces[0].drawings["37"].outline_mm)
    (x0, y0), (x1, y1) = outline.min(axis=0), outline.max(axis=0)
    line = where.course([where.in_frame(((x0 + x1) / 2, y)) for y in (y0 - 9, y1 + 9)])
    style = draw.add_split(plain_style, name, 0, line, names=("heel", "toe"), overlap_mm=8.0)
    (backing,) = piece_backings(style, name, "37", "left")
    cards = cards_of(style, backing.upper, [backing])
    rings = [
        [m for m in card.drawing.walk() if isinstance(m, Line) and m.layer == "backing" and m.closed]
        for card in cards
    ]
    assert [len(some) for some in rings[:3]] == [0, 1, 1]  # the upper, each part; then both on the upper
    drawn = [extent_mm(card.drawing) for card in cards[1:3]]
    assert all(right - left < 0.75 * (x1 - x0) for left, _, right, _ in drawn)
    cut = [m for m in backing_drawing([backing]).walk() if isinstance(m, Line) and m.layer == "cut"]
    a, b = (Polygon(line.points_mm) for line in cut)
    assert a.distance(b) > 0.0  # nor do they lie over each other in the cutter's drawing


def test_boards_without_pieces_are_refused(plain_style: Style, tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="no piece"):
        boards.write(Drafted(plain_style, []), tmp_path)


def test_the_command_writes_boards(plain_style: Style, tmp_path: Path, capsys) -> None:
    save_style(plain_style, tmp_path / "plain.style.json")
    out = tmp_path / "out"
    words = ["boards", str(tmp_path / "plain.style.json"), "--sizes", "37", "-o", str(out), "--json"]
    assert main(words) == 0
    payload = json.loads(capsys.readouterr().out)
    assert [Path(f).name for f in payload["files"]] == [f for p in papers_of(Drafted) for f in p.files]
    assert all(Path(f).exists() for f in payload["files"])
    assert main([*words[:-3], "-o", str(tmp_path / "no"), "--sheet", "A7"]) == 2
    assert "no sheet 'A7'" in capsys.readouterr().err
    assert not (tmp_path / "no").exists()
