"""Hold sheet: each piece with its hold line, what it gives, what a slant costs, and the verdict."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from app.cautions import cautions
from app.hold.chain import ChainHold
from app.hold.cloth_choice import TriedCloth
from app.hold.materials import Known, strips_of
from app.hold.verdicts import FIELD_ELSEWHERE, NO_MEASUREMENT, PieceHold, StyleHold, shown_percent, span
from app.measures import counted
from app.papers.formats.drawing import Drawing, Page, Pen
from app.papers.formats.lettering import extent_mm, wrapped
from app.papers.formats.pdf import write_pdf
from app.papers.layout import pens
from app.papers.layout.marks import draw_axis
from app.papers.layout.sheets import MARGIN_MM, set_out
from app.papers.layout.tables import draw_table, fitting_columns
from app.papers.pictures.pieces import draw_outline, scaled
from app.papers.pictures.polar_plot import draw_polar
from app.papers.pictures.slant_plot import draw_slant
from app.papers.reinforcement_sheet import SCALES
from app.papers.shown import Held
from app.style.model import Style
from app.style.pieces import piece_backings, upper_piece
from app.words import listed, say
from app.workshop.trial_book import Calibration
from geometry.paper import PAPER_MM

_LINE = Pen(0.8, colour=pens.INK)
_BARE = Pen(0.8, (1.2, 1.2), pens.INK)
_SIDE_MM = 128.0
WORDS = {True: "holds", False: "BREAKS ITS LIMIT", None: "the trial decides"}


def write(shown: Held, out_dir: Path) -> list[Path]:
    """Write hold-sheet.pdf (A3, lying) and return its path."""
    return [
        write_pdf(pages(shown), out_dir / "hold-sheet.pdf", title=say("{0}: hold sheet", shown.style.name))
    ]


def pages(shown: Held) -> list[Page]:
    """Return the sheet, and one of remarks where they find no room on it."""
    style, held, turn_deg = shown.style, shown.held, shown.turn_deg
    candidates, trials = shown.candidates, shown.trials
    high, wide = PAPER_MM["A3"]
    drawing = Drawing()
    side = wide - MARGIN_MM - _SIDE_MM
    left_room = side - MARGIN_MM - 8.0
    top = _head(drawing, style, held, high, turn_deg)
    rows = [_row(piece, trials) for piece in held.pieces]
    rows += [_chain_row(chain, trials) for chain in held.chains]
    table_high = pens.SMALL * 1.75 * (len(rows) + 1)
    side_foot = MARGIN_MM + 2.0
    foot = _cautions(drawing, left_room, side_foot)
    _pictures(drawing, style, held, left_room, foot + table_high + 10.0, top - 4.0)
    heads = [
        "piece",
        "cloth off the pull",
        "upper alone",
        "with backing",
        "hold line",
        "gives",
        "limit",
        "permitted tilt",
        "verdict",
        "by trials",
    ]
    anchors = ["left", *["right"] * 7, "left", "right"]
    columns = fitting_columns(heads, rows, anchors, left_room)  # type: ignore[arg-type]
    bold = [i for i, each in enumerate(held.judged) if each.hold.holds is False]
    draw_table(drawing, MARGIN_MM, foot + table_high + 4.0, columns, rows, bold_rows=bold)
    drawing.line([(side - 4.0, side_foot), (side - 4.0, top)], pens.HAIR, "frame")
    left = _side(drawing, style, held, candidates, shown.beside or FIELD_ELSEWHERE, side, top, side_foot)
    sheets = [Page(wide, high, drawing)]
    if left:
        more = Drawing()
        more.text(
            MARGIN_MM,
            high - MARGIN_MM - pens.LABEL,
            say("{0}: hold, remarks", style.name),
            pens.LABEL,
            bold=True,
        )
        _write(more, left, MARGIN_MM, high - MARGIN_MM - 12.0, side - MARGIN_MM, MARGIN_MM, pens.BODY)
        sheets.append(Page(wide, high, more))
    return sheets


def _head(drawing: Drawing, style: Style, held: StyleHold, high: float, turn_deg: float) -> float:
    y = high - MARGIN_MM - pens.TITLE
    drawing.text(MARGIN_MM, y, say("{0}: hold", style.name), pens.TITLE, bold=True, colour=pens.INK)
    failing = listed(", ")(each.called for each in held.failing)
    limits = [each for each in held.judged if each.hold.limit_mm is not None]
    if failing:
        verdict = say("LIMIT BROKEN: {0}", failing)
    elif not limits:
        verdict = "no limit is set on any piece"
    elif any(each.hold.holds is None for each in limits):
        verdict = "within its limits by the best estimate; the trial decides"
    else:
        verdict = "every limit is kept"
    y -= pens.LABEL * 1.6
    drawing.text(MARGIN_MM, y, verdict, pens.LABEL, bold=True, colour=pens.INK)
    y -= pens.BODY * 1.5
    turned = say("; ALL BACKING TURNED BY {0} DEGREES", f"{turn_deg:g}") if turn_deg else ""
    upper = style.upper_material.name or "unnamed"
    words = say("pull {0} N/mm along the pull axis; upper: {1}", f"{style.pull_n_per_mm:g}", upper)
    drawing.text(MARGIN_MM, y, say("{0} ({1}){2}", words, held.upper.how, turned), pens.BODY, colour=pens.INK)
    y -= pens.BODY * 1.4
    drawing.text(MARGIN_MM, y, say("cloth: {0}", held.how_known), pens.BODY, colour=pens.INK)
    return y - 3.0


def _cautions(drawing: Drawing, wide: float, foot: float) -> float:
    """Write all cautions together above the foot, as large as the table's text; return their top."""
    lines = [line for text in cautions("hold sheet") for line in wrapped(text, pens.SMALL, wide)]
    y = top = foot + pens.SMALL * 1.35 * len(lines) + pens.BODY * 1.5
    y -= pens.BODY
    drawing.text(MARGIN_MM, y, "Cautions", pens.BODY, bold=True, colour=pens.INK)
    for line in lines:
        y -= pens.SMALL * 1.35
        drawing.text(MARGIN_MM, y, line, pens.SMALL, colour=pens.INK)
    return top + 2.0


def _trials_say(each: PieceHold | ChainHold, trials: Mapping[str, Calibration]) -> str:
    found = trials.get(each.cloths[0]) if len(each.cloths) == 1 and each.has_line else None
    if found is None:
        return "-"
    best, low, high = each.hold.best_mm, found.low, found.high
    if low is None or high is None:
        return say("{0} mm ({1})", f"{best * found.factor:.1f}", counted(found.trials, "trial"))
    return say("{0}-{1} mm ({2})", f"{best * low:.1f}", f"{best * high:.1f}", counted(found.trials, "trial"))


def _row(piece: PieceHold, trials: Mapping[str, Calibration]) -> list[str]:
    hold = piece.hold
    return [
        piece.piece,
        "not backed" if piece.angle_deg is None else say("{0}°", f"{abs(piece.angle_deg):.0f}"),
        say("{0} %", f"{hold.percent(hold.upper_mm):.1f}"),
        shown_percent(hold),
        say("{0} mm", f"{hold.distance_mm:.0f}") if piece.has_line else "none drawn",
        say("{0} mm", span(hold)) if piece.has_line else "-",
        "-" if hold.limit_mm is None else say("{0} mm", f"{hold.limit_mm:.1f}"),
        "-" if piece.granted_deg is None else say("{0}°", f"{piece.granted_deg:g}"),
        "no limit" if hold.limit_mm is None else WORDS[hold.holds],
        _trials_say(piece, trials),
    ]


def _chain_row(chain: ChainHold, trials: Mapping[str, Calibration]) -> list[str]:
    hold = chain.hold
    return [
        say("{0}: {1}", chain.name, listed(" + ")(chain.pieces)),
        "chain",
        say("{0} %", f"{hold.percent(hold.upper_mm):.1f}"),
        shown_percent(hold),
        say("{0} mm", f"{hold.distance_mm:.0f}"),
        say("{0} mm", span(hold)),
        "-" if hold.limit_mm is None else say("{0} mm", f"{hold.limit_mm:.1f}"),
        "-" if chain.granted_deg is None else say("{0}°", f"{chain.granted_deg:g}"),
        "no limit" if hold.limit_mm is None else WORDS[hold.holds],
        _trials_say(chain, trials),
    ]


def _pictures(drawing: Drawing, style: Style, held: StyleHold, wide: float, low: float, top: float) -> None:
    for ratio in SCALES:
        arts = [_picture(style, piece, 1.0 / ratio) for piece in held.pieces]
        boxes = [extent_mm(art) for art in arts]
        sizes = [(b[2] - b[0], b[3] - b[1]) for b in boxes]
        if any(w > wide or h > top - low for w, h in sizes):
            continue
        order = sorted(range(len(sizes)), key=lambda i: -sizes[i][1])
        spreads = set_out([sizes[i] for i in order], wide, top - low, gap_mm=6.0)
        if len(spreads) > 1:
            continue
        for number, x, y in spreads[0].places:
            i = order[number]
            drawing.place(arts[i], MARGIN_MM + x - boxes[i][0], top - y - sizes[i][1] - boxes[i][1])
        drawing.text(
            MARGIN_MM + wide,
            low - 3.0,
            say("scale 1:{0}", f"{ratio:g}"),
            pens.TINY,
            anchor="right",
            colour=pens.GREY,
        )
        return


def _picture(style: Style, held: PieceHold, scale: float) -> Drawing:
    """A piece with its backing; the hold line full where it is backed, dashed where it is not."""
    art = Drawing()
    data = style.piece(held.piece)
    base = style.size_run.base
    upper = upper_piece(style, held.piece, base, data.hand)
    for backing in piece_backings(style, held.piece, base, data.hand) if data.layers else ():
        for part in backing.outlines:
            draw_outline(art, scaled(part, scale), pens.THIN, "both", fill=pens.PALE)
    draw_outline(art, scaled(upper.outline, scale), pens.CUT, "both")
    x0, y0, x1, y1 = scaled(upper.outline, scale).bbox_mm
    if data.hold_line is not None:
        a, b = np.array(data.hold_line.from_mm) * scale, np.array(data.hold_line.to_mm) * scale
        reach = sum(section.length_mm for section in held.sections)
        at = 0.0
        for section in held.sections:
            ends = (a + (b - a) * at / reach, a + (b - a) * (at + section.length_mm) / reach)
            art.line(ends, _LINE if section.layers else _BARE, "plot")
            at += section.length_mm
        across = np.array([-(b - a)[1], (b - a)[0]]) / max(float(np.hypot(*(b - a))), 1e-9) * 1.6
        for end in (a, b):
            art.line([end - across, end + across], pens.RULE, "plot")
    else:
        draw_axis(art, (x0 + x1) / 2, (y0 + y1) / 2, data.pull_axis.axis_deg, 18.0, label="pull")
    hold = held.hold
    mark = {
        True: "holds",
        False: "BREAKS",
        None: "trial decides" if hold.limit_mm is not None else "no limit",
    }
    gives = say("{0} mm", span(hold)) if held.has_line else say("{0} %", f"{hold.percent(hold.high_mm):.1f}")
    art.text(x0, y0 - 4.0, held.piece, pens.BODY, bold=True, colour=pens.INK)
    art.text(x0, y0 - 7.4, say("gives {0}: {1}", gives, mark[hold.holds]), pens.SMALL, colour=pens.INK)
    return art


def _side(
    drawing: Drawing,
    style: Style,
    held: StyleHold,
    candidates: Sequence[TriedCloth],
    field: str,
    x: float,
    top: float,
    foot: float,
) -> list[str]:
    """Draw the side; returned are the remarks that found no room."""
    y = top
    known: list[tuple[str, Known, tuple]] = [
        (style.cloth(name).name, each, style.cloth(name).tests) for name, each in held.cloths.items()
    ]
    known.append((style.upper_material.name or "upper material", held.upper, style.upper_material.tests))
    plots = [(name, each.fit, tests) for name, each, tests in known if each.fit is not None][:3]
    pitch = _SIDE_MM / max(2, len(plots))
    radius = min(23.0, pitch / 2 - 9.0)
    for number, (name, fit, tests) in enumerate(plots):
        middle = x + pitch * (number + 0.47)
        assert fit is not None
        zero = "pull axis" if number == len(known) - 1 or name == style.upper_material.name else "roll"
        draw_polar(drawing, middle, y - radius - 9.0, radius, strips_of(tests), fit, zero=zero, ninety="")
        for i, line in enumerate(wrapped(name, pens.TINY, pitch - 2.0)[:1]):
            drawing.text(middle, y - 2.0 - i * 3.0, line, pens.TINY, anchor="middle", bold=True)
    if plots:
        y -= 2 * radius + 18.0
    backed = [each for each in held.judged if each.is_backed]
    limits = [each for each in backed if each.hold.limit_mm and each.has_line]
    plot_high = 38.0 if candidates else 48.0
    for each in reversed(sorted(limits or backed, key=_use)[-2:]):
        draw_slant(drawing, each, x + 10.0, y - plot_high - 6.0, _SIDE_MM - 14.0, plot_high)
        y -= plot_high + 18.0
    if candidates:
        rows = [
            [
                c.cloth.name,
                {True: "holds", False: "breaks", None: "trial decides"}[c.holds],
                "-"
                if c.worst is None
                else say("{0} of {1} mm", span(c.worst.hold), f"{c.worst.hold.limit_mm:.1f}"),
                "-"
                if c.cost_per_pair is None
                else say("{0} {1}", f"{c.cost_per_pair:.3f}", c.cloth.currency),
            ]
            for c in candidates
        ]
        heads = ["in place of the first cloth", "", "nearest to its limit", "per pair, net"]
        columns = fitting_columns(heads, rows, ["left", "left", "right", "right"], _SIDE_MM)
        y = draw_table(drawing, x, y, columns, rows, size_mm=pens.TINY) - 4.0
    remarks = [str(f) for f in held.findings if f.code not in ("HOLD_BROKEN", "HOLD_UNSURE")]
    ranges = (
        "Ranges run from shear blocked to shear free, widened by what the strips leave open; the limit is "
        "kept when the upper end keeps it. Bending, creep, heat set and slip of the glue are not in them."
    )
    return _write(drawing, [*remarks, field, ranges, NO_MEASUREMENT], x, y, _SIDE_MM, foot, pens.SMALL)


def _write(
    drawing: Drawing,
    texts: Sequence[str],
    x: float,
    y: float,
    wide: float,
    foot: float,
    size: float,
) -> list[str]:
    """Write paragraphs down to the foot; returned are those that found no room."""
    for number, text in enumerate(texts):
        lines = wrapped(text, size, wide)
        if y - size * 1.35 * len(lines) < foot:
            return list(texts[number:])
        for line in lines:
            y -= size * 1.35
            drawing.text(x, y, line, size, colour=pens.INK)
        y -= 0.7 * size
    return []


def _use(each: PieceHold | ChainHold) -> float:
    return each.hold.high_mm / each.hold.limit_mm if each.hold.limit_mm else 0.0
