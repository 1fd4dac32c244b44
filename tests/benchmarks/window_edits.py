"""How long an edit takes from hand to screen, how fast the board pans and zooms, how soon the
window paints, and how much memory it holds.

    QT_QPA_PLATFORM=offscreen .venv/bin/python tests/benchmarks/window_edits.py

Prints medians (and the slowest of all runs) in milliseconds. Times are of this machine and run;
ratios beside each other mean more than any one figure.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
ROOT = Path(__file__).resolve().parents[2]
sys.path[0] = str(ROOT)  # the packages themselves, not the benchmarks named after them
sys.path.append(str(Path(__file__).parent))
START = time.perf_counter()  # imports are part of the start

# ruff: noqa: E402
from opened_window import held_mb, opened_window
from PySide6.QtCore import QPointF

from app.style import edits
from app.style.document import Document
from app.style.drafting.script import carry_out
from app.style.file import load_style
from app.style.model import Style
from app.style.pieces import upper_piece
from app.style.whole import adding, drawn_shapes, folding, sizes, twins

ROOT = Path(__file__).resolve().parents[2]
RUNS = 25


def main() -> None:
    """Measure and print."""
    with opened_window() as (app, window):
        print(f"start to first paint        {1000 * (time.perf_counter() - START):8.0f} ms")
        for name in ("derby", "boot"):
            style = load_style(ROOT / f"sample_styles/{name}/{name}.style.json")
            measure(name, refined(style), window, app)
        steps_undone(window, app)
        many(window, app)
        print(f"memory held                 {held_mb():8.0f} MB")


def refined(style: Style, vertices: int = 200) -> Style:
    """Return a style whose first piece has about ``vertices`` vertices: each long side is halved."""
    piece = style.pieces[0]
    drawings = {}
    shift: list[int] = []
    ring = list(piece.drawings[style.size_run.base].outline_mm)
    share = max(1, round(len(ring) / max(vertices - len(ring), 1)))
    for size, drawing in piece.drawings.items():
        points = list(drawing.outline_mm)
        made: list[tuple[float, float]] = []
        shift = []
        for i, (x, y) in enumerate(points):
            shift.append(len(made))
            made.append((x, y))
            if i % share == 0:
                nx, ny = points[(i + 1) % len(points)]
                made.append(((x + nx) / 2, (y + ny) / 2))
        drawings[size] = drawing.model_copy(update={"outline_mm": tuple(made)})
    moved = tuple(e.model_copy(update={"start": shift[e.start]}) if e.ring == 0 else e for e in piece.edges)
    finer = piece.model_copy(update={"drawings": drawings, "edges": moved})
    return style.model_copy(update={"pieces": (finer, *style.pieces[1:])})


def measure(name: str, style: Style, window, app) -> None:
    """Open a style and time edits on its first piece, up to the painted screen."""
    window.session.open(Document(style))
    window.show_desk(0)
    app.processEvents()
    desk = window.desk
    piece = style.pieces[0].name
    count = len(upper_piece(style, piece, style.size_run.base, "left").outline.ring_mm)
    desk.select(piece)
    desk.fit()
    app.processEvents()
    print(f"{name}: {len(style.pieces)} pieces, {piece} with {count} vertices")
    document = window.session.document
    port = desk.view.viewport()

    def axis(k: int) -> None:
        document.preview(edits.set_axis(document.style, piece, k / 10))
        app.processEvents()  # what changed is painted, as the window does it

    names = [(e.ring, e.start) for e in style.pieces[0].edges][:1]

    def setback(k: int) -> None:
        document.preview(edits.set_setback(document.style, piece, names, 4.0 + k / 20))
        app.processEvents()

    def commit(k: int) -> None:
        window.session.apply("x", edits.set_setback(document.style, piece, names, 5.0 + k / 20))
        port.repaint()

    def pan(k: int) -> None:
        desk.view.pan_by(7, 3)
        port.repaint()

    def zoom(k: int) -> None:
        desk.view.zoom_by(1.02, QPointF(400, 300))
        port.repaint()

    def undo(k: int) -> None:
        document.undo() if k % 2 == 0 else document.redo()
        port.repaint()

    def nest(k: int) -> None:
        girth = sizes.set_girth(wide, 200.0 + k)  # every size anew
        document.preview(girth)
        port.repaint()

    for label, act in (
        ("turning the axis, live", axis),
        ("dragging a setback, live", setback),
        ("setback entered, copy on disk", commit),
        ("undo and redo of a step", undo),
        ("panning a frame", pan),
        ("zooming a frame", zoom),
    ):
        report(label, act)
    low, high = (int(style.size_run.sizes[i]) for i in (0, -1))
    wide = sizes.add_sizes(document.style, f"{high - 10}-{high}") if high - 10 < low else document.style
    desk.actions_made["draft.show_nest"].setChecked(True)
    report(f"size nest of {len(wide.size_run.sizes)} sizes, graded anew", nest)
    desk.actions_made["draft.show_nest"].setChecked(False)
    document.preview(None)


def _carried_out(step: dict[str, object], style: Style) -> Style:
    return carry_out(style, [step])[0]


def steps_undone(window, app) -> None:
    """Take back one step of every kind, on the derby with a vamp of 200 vertices, to the painted screen."""
    style = refined(load_style(ROOT / "sample_styles/derby/derby.style.json"))
    across = {"piece": "Counter", "line": [[560, 190], [560, 270]]}
    edge = {"piece": "Quarter outer", "edge": 54}
    listed: list[dict[str, object]] = [
        {"do": "cut", **across, "keep": [520, 230]},
        {"do": "split", **across, "overlap_mm": 8},
        {"do": "region", "piece": "Counter", "layer": "new", "band": {"edge": 70, "width_mm": 15}},
        {"do": "change", "piece": "Counter", "line": [[540, 202], [560, 212], [580, 202]]},
        {"do": "notch", "piece": "Quarter outer", "at": {"edge": 54}},
        {"do": "relief", **edge, "pitch_mm": 8, "depth_mm": 4},
        {"do": "text", "piece": "Counter", "at": [560, 230], "text": "42"},
        {"do": "taper", **edge, "from_mm": 4, "to_mm": 8},
        {"do": "kind", **edge, "kind": "raw"},
        {"do": "break_corners", "piece": "Vamp", "corner_deg": 3},
    ]
    kinds: dict[str, Callable[[Style], Style]] = {
        str(each["do"]): partial(_carried_out, each) for each in listed
    }
    kinds |= {
        "pull axis": lambda s: edits.set_axis(s, "Vamp", 5.0),
        "sizes added": lambda s: sizes.add_sizes(s, "36-39"),
        "fold": lambda s: folding.fold(s, "Counter"),
        "mirrored to a twin": lambda s: twins.mirror_piece(s, "Quarter outer", "Twin", linked=True),
        "duplicate": lambda s: adding.duplicate(s, "Vamp"),
        "delete": lambda s: adding.delete(s, "Tongue"),
        "a piece drawn": lambda s: drawn_shapes.add_rectangle(s, "Tab", 60.0, 20.0),
    }
    window.session.open(Document(style))
    window.desk.fit()
    app.processEvents()
    used = {}
    for name, change in kinds.items():
        times = []
        for _ in range(5):
            window.session.apply(name, change(window.session.style))
            app.processEvents()
            before = time.process_time()
            window.session.document.undo()
            app.processEvents()
            times.append(1000 * (time.process_time() - before))
        used[name] = statistics.median(times)
    print("taking back one step of every kind, processor")
    for name, ms in sorted(used.items(), key=lambda item: -item[1]):
        print(f"  {name:38s} {ms:6.1f} ms")


def many(window, app) -> None:
    """Draw 60 pieces of 200 vertices: all of them anew, and frames while the board moves."""
    style = refined(load_style(ROOT / "sample_styles/derby/derby.style.json"))
    first = style.pieces[0].name
    for _ in range(59 - len(style.pieces) + 1):
        style = adding.duplicate(style, first)
    window.session.open(Document(style))
    app.processEvents()
    desk, port = window.desk, window.desk.view.viewport()
    desk.fit()
    app.processEvents()
    print(f"{len(style.pieces)} pieces of 200 vertices")

    def frame(k: int) -> None:
        port.repaint()

    def pan(k: int) -> None:
        desk.view.pan_by(7, 3)
        port.repaint()

    def choose(k: int) -> None:
        desk.select(style.pieces[10 + k % 2].name)
        port.repaint()

    def setback(k: int) -> None:
        edge = (0, style.pieces[0].edges[0].start)
        window.session.document.preview(edits.set_setback(style, first, [edge], 4.0 + k / 20))
        app.processEvents()  # what changed is painted, as the window does it

    for label, act in (
        ("painting all", frame),
        ("panning a frame", pan),
        ("selecting another piece", choose),
        ("dragging a setback, live", setback),
    ):
        report(label, act)
        time.sleep(0.3)  # a moved picture is painted again
        app.processEvents()
    window.session.document.preview(None)


def report(label: str, act: Callable[[int], None]) -> None:
    """Time ``act`` RUNS times, by the clock and by the processor."""
    wall, used = [], []
    for k in range(RUNS):
        begun, before = time.perf_counter(), time.process_time()
        act(k)
        wall.append(1000 * (time.perf_counter() - begun))
        used.append(1000 * (time.process_time() - before))
    print(
        f"  {label:38s} wall {statistics.median(wall):6.1f} ms, slowest {max(wall):6.1f}   "
        f"processor {statistics.median(used):6.1f} ms"
    )


if __name__ == "__main__":
    main()
