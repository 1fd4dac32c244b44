"""Press list: the dies of an order, which hands share them, strokes, rows, and the cloth they take."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from app.cautions import cautions
from app.measures import counted
from app.papers.formats.drawing import Page
from app.papers.formats.pdf import write_pdf
from app.papers.formats.spreadsheet import write_csv, write_xlsx
from app.papers.lay_facts import require_verified, tight_words, verdict_line
from app.papers.layout.flow import Flow
from app.papers.pictures.press_rows import rows_picture, stack_pictures
from app.papers.press_tables import before_the_run, press_sheets
from app.papers.shown import Pressed
from app.press.cuts import cuts_words
from app.press.job import PressDie
from app.press.report import SPREAD_WORDS, PressCloth, knife_words, rows_m
from app.press.stacks import PressStack
from app.words import listed, say, sentence
from geometry.paper import PAPER_MM
from geometry.said import percent
from nesting.planning.consumption import YIELD_MEANS

MOST_ROWS = 14
"""Rows of a die listed on paper; the tables in the workbook hold them all."""


def pages(shown: Pressed) -> list[Page]:
    """Return the sheets of press-list.pdf."""
    return press_pages(shown.payload, shown.plans)


def write(shown: Pressed, out_dir: Path) -> list[Path]:
    """Write press-list.pdf, .csv and .xlsx; raises UnverifiedError when a strip is not verified."""
    payload, plans = shown.payload, shown.plans
    for plan in plans:
        for die in plan.dies:
            require_verified(die.verdict, say("die {0}", die.name))
        for stack in plan.stacks:
            require_verified(stack.verdict, say("stack {0}", stack.name))
    sheets = press_sheets(payload)
    title = say("Press list {0}", payload["style"])
    return [
        write_pdf(pages(shown), out_dir / "press-list.pdf", title=title),
        write_csv(sheets, out_dir / "press-list.csv"),
        write_xlsx(sheets, out_dir / "press-list.xlsx"),
    ]


def press_pages(payload: Mapping[str, Any], plans: Sequence[PressCloth]) -> list[Page]:
    """Return the list on A4 sheets, upright."""
    wide, high = PAPER_MM["A4"]
    flow = Flow(wide, high, "Press list", payload["style"])
    dies = [die for plan in plans for die in plan.dies]
    pairs = payload["pairs_ordered"]
    flow.figures(
        [
            (str(sum(pairs.values())), "pairs ordered"),
            (str(len(dies)), "dies"),
            (str(sum(die.strokes for die in dies)), "strokes of the press"),
            (listed(" / ")(str(plan.layers) for plan in plans), "layers per stroke"),
            (
                say("{0} m", f"{sum(payload['cloth_m'].values()):.2f}"),
                "of cloth, ends of layers included",
            ),
        ]
    )
    flow.heading("Pairs")
    sizes = list(pairs)
    for at in range(0, len(sizes), 12):
        some = sizes[at : at + 12]
        flow.table(["size", *some], [["ordered", *(str(pairs[size]) for size in some)]])
    flow.heading("Which hand a die cuts")
    for text in _hands(payload["spread"], plans):
        flow.paragraph(text)
    for plan in plans:
        _cloth(flow, payload, plan)
    if "knife" in payload:
        flow.heading("Compared with a knife lay")
        text = knife_words(payload["knife"])
        flow.paragraph(say("{0}.", sentence(text)))
    flow.heading("How the rows are set out")
    for text in _HOW:
        flow.paragraph(text)
    for plan in plans:
        for die in plan.dies:
            _rows(flow, die)
    for plan in plans:
        for stack in plan.stacks:
            _stack(flow, plan, stack)
    flow.heading("Assumptions and verification")
    flow.paragraph(say("{0}.", sentence(YIELD_MEANS)))
    for text in payload["assumptions"]:
        flow.paragraph(say("{0}.", sentence(text)))
    found = [die.verdict for die in dies] + [stack.verdict for plan in plans for stack in plan.stacks]
    verdicts = dict.fromkeys(map(verdict_line, found))
    flow.paragraph(say("Every strip and stack: {0}.", listed("; ")(verdicts)))
    flow.heading("Before the run")
    for text in before_the_run(payload["spread"]):
        flow.paragraph(text)
    flow.cautions(cautions("press"))
    flow.heading("Check, then sign")
    flow.boxes(
        (
            "die numbers and sizes read off the dies",
            "tight direction found by pulling the cloth",
            say("spread: {0}", SPREAD_WORDS[payload["spread"]]),
            "layers counted",
            "top and bottom pieces checked against the board",
            "size and hand marked on every bundle",
        )
    )
    flow.fields([("metres used", ""), ("cut by", ""), ("date and sign", "")], columns=3)
    return flow.pages()


_HOW = (
    "Each picture shows the roll's width from left (edge 0) to right and its length downwards, seen from the "
    "glue side of the layers that lie glue side up. White: the die as drawn; tinted: the die turned by half, "
    "never turned over. The arrow is the pull axis on the tight direction.",
    "Stops are given for the corner of the die's box that is nearest to the start and to edge 0 (ringed at "
    "the first place): along = from the start of the strip, across = from edge 0. Step: from place to "
    "place in a row. Pitch: from a row to the next of the same way up. Shift: how much further on each such "
    "row begins (it may drop whole steps at an edge). All are whole tenths of a millimetre, and the strip "
    "that was verified is set out by exactly these figures.",
)


def _hands(spread: str, plans: Sequence[PressCloth]) -> list[str]:
    """Say which dies do both hands, and why the others do not."""
    dies = [die for plan in plans for die in plan.dies]
    own = [die.name for die in dies if not die.over and len(die.hands) == 2]
    over = [die.name for die in dies if die.over]
    single = [die.name for die in dies if len(die.hands) == 1]
    lines = [
        say(
            "The glue lies on one face: a half turn of the die on the cloth keeps the hand, only its "
            "mirror image changes it. Spread: {0}.",
            SPREAD_WORDS[spread],
        )
    ]
    if own:
        lines.append(
            say("Same outline left and right, one die for both hands in any spread: {0}.", _row_of(own))
        )
    if over and spread == "face-to-face":
        lines.append(
            say(
                "One die, both hands in every stroke: {0}. Layers glue side up give the hand drawn, "
                "layers turned over the other; the layers are even, so neither hand is short.",
                _row_of(over),
            )
        )
    elif over:
        lines.append(
            say(
                "One die, a stack for each hand: {0}. Spread the first stack glue side up for the "
                "hand drawn, the second glue side down for the other, both set out by the same "
                "picture.",
                _row_of(over),
            )
        )
    if single and spread == "face-up":
        lines.append(
            say(
                "One hand each: {0}. Cut glue side up, left and right need two dies that are each "
                "other's mirror image. One of the two is enough when layers lie face to face, or when the "
                "other hand is spread glue side down; that holds on cloth whose tight direction lies "
                "along or across the roll. A die edged on both sides does it too: ask the die maker "
                "(common practice, no source).",
                _row_of(single),
            )
        )
    elif single:
        lines.append(say("No mirror image among the pieces, so one hand only: {0}.", _row_of(single)))
    if spread != "face-up" and any(plan.cloth.one_way for plan in plans):
        lines.append(
            "The cloth is one-way: turn every second layer over about the roll's length, cut off at the end; "
            "folded back and forth it would run the wrong way."
        )
    return lines


def _row_of(names: Sequence[str]) -> str:
    """Return names of dies in their order, three or more that follow each other as 'D1 to D4'."""
    runs: list[list[str]] = []
    for name in names:
        if runs and int(name[1:]) == int(runs[-1][-1][1:]) + 1:
            runs[-1].append(name)
        else:
            runs.append([name])
    return listed(", ")(
        part for run in runs for part in ([say("{0} to {1}", run[0], run[-1])] if len(run) > 2 else run)
    )


def _cloth(flow: Flow, payload: Mapping[str, Any], plan: PressCloth) -> None:
    cloth, told = plan.cloth, payload["cloths"][plan.cloth.id]
    flow.heading(say("{0}: {1} m", cloth.name, f"{told['metres']:.2f}"))
    thick = (
        "" if cloth.thickness_mm is None else say(", {0} mm high", f"{cloth.thickness_mm * plan.layers:.1f}")
    )
    flow.fields(
        [
            ("usable width", say("{0} mm", f"{plan.width_mm:g}")),
            ("tight direction", say("{0} ({1})", tight_words(cloth.tight_direction_deg), cloth.how_known)),
            ("layers", say("{0} per stroke{1}", plan.layers, thick)),
            ("lot, roll no.", cloth.lot),
            (
                "yield",
                say(
                    "{0} of the stacks, utilisation {1}", percent(told["yield"]), percent(told["utilisation"])
                ),
            ),
            (
                "for comparison",
                say(
                    "each die on its own strip {0} m, endless rows {1} m",
                    f"{told['own_strips_m']:.2f}",
                    f"{told['rows_m']:.2f}",
                ),
            ),
        ],
        columns=2,
    )
    entries = [die for die in payload["dies"] if die["cloth"] == cloth.id]
    flow.table(
        ["", "piece", "size", "hand", "knife, mm", "needed", "strokes", "cut", "over"],
        [
            [
                die["die"],
                listed(" / ")(dict.fromkeys(cut["piece"] for cut in die["cuts"])),
                "/".join(dict.fromkeys(cut["size"] for cut in die["cuts"])),
                " + ".join(say("{0} L" if hand == "left" else "{0} R", "").strip() for hand in die["hands"]),
                f"{die['edge_mm']:.0f}",
                str(die["pieces_needed"]),
                str(die["strokes"]) if die["stacks"] == 1 else say("2 x {0}", die["strokes"] // 2),
                str(die["pieces_cut"]),
                str(die["pieces_cut"] - die["pieces_needed"]),
            ]
            for die in entries
        ],
    )
    total = [
        "each on its own strip",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        "",
        say("{0} m", f"{told['own_strips_m']:.2f}"),
    ]
    flow.table(
        [
            "",
            "rows",
            "step, mm",
            "pitch, mm",
            "shift, mm",
            "half turned at, mm",
            "pieces per metre",
            "yield",
            "strip",
            "cloth",
        ],
        [
            [
                die["die"],
                die["rows_run"],
                f"{die['step_mm']:.1f}",
                f"{die['row_pitch_mm']:.1f}",
                f"{die['row_shift_mm']:+.1f}",
                "–" if die["turned_at_mm"] is None else "{:+.1f} / {:+.1f}".format(*die["turned_at_mm"]),
                f"{die['pieces_per_m']:.1f}",
                percent(die["yield"]),
                say("{0} m", f"{die['length_mm'] / 1000:.3f}"),
                say("{0} m", f"{die['cloth_m']:.2f}"),
            ]
            for die in entries
        ]
        + [total],
        total=True,
    )


def _rows(flow: Flow, die: PressDie) -> None:
    drawing, high, ratio, shown = rows_picture(die, flow.room)
    told = die.document
    part = "" if shown > told["length_mm"] - 1.0 else say(", the first {0} m", f"{shown / 1000:.2f}")
    stacks = say("{0} stacks of ", die.stacks) if die.stacks > 1 else ""
    flow.picture(
        say(
            "{0} · {1} · {2}{3} in {4} m · scale 1:{5}{6}",
            die.name,
            cuts_words([asdict(cut) for cut in (*die.up, *die.over)]),
            stacks,
            counted(len(die.rows.turned), "place"),
            f"{told['length_mm'] / 1000:.3f}",
            f"{ratio:g}",
            part,
        ),
        drawing,
        high,
    )
    rows = die.rows.rows
    rows_told = listed("; ")(
        say(
            "{0}. {1} from {2} along, {3} across, {4}",
            n,
            "half turned" if row.turned else "as drawn",
            f"{row.x_mm:.1f}",
            f"{row.y_mm:.1f}",
            counted(row.places, "place"),
        )
        for n, row in enumerate(rows[:MOST_ROWS], 1)
    )
    more = say("; {0} more in the workbook", len(rows) - MOST_ROWS) if rows[MOST_ROWS:] else ""
    notes = "".join(say(" {0}.", sentence(text)) for text in die.notes)
    flow.paragraph(
        say(
            "Rows along the roll, mm: {0}{1}.{2} Cloth {3} m, {4} m in endless rows."
            if die.rows.runs == "along"
            else "Rows across the roll, mm: {0}{1}.{2} Cloth {3} m, {4} m in endless rows.",
            rows_told,
            more,
            notes,
            f"{die.cloth_m(told['end_loss_mm']):.2f}",
            f"{rows_m(die):.2f}",
        )
    )


def _stack(flow: Flow, plan: PressCloth, stack: PressStack) -> None:
    """All dies side by side, and where each block's rows begin."""
    lies = {"up": "glue side up", "down": "glue side down", "face to face": "face to face"}[stack.glue]
    metres = plan.layers * (stack.length_mm + 2.0 * plan.end_loss_mm) / 1000.0
    flow.heading(
        say(
            "Stack {0} of {1}: {2} {3}, {4} m",
            stack.name,
            plan.cloth.name,
            counted(plan.layers, "layer"),
            lies,
            f"{metres:.2f}",
        )
    )
    flow.paragraph(
        say(
            "All dies from one stack, block by block in this order, each block in its die's own step "
            "and pitch. Length {0} m, yield {1}.",
            f"{stack.length_mm / 1000:.3f}",
            percent(stack.document["yield"]),
        )
    )
    for drawing, high, ratio, begin, end in stack_pictures(stack, plan.dies, flow.room):
        flow.picture(
            say(
                "Stack {0} from {1} to {2} m · scale 1:{3}",
                stack.name,
                f"{begin / 1000:.3f}",
                f"{end / 1000:.3f}",
                f"{ratio:g}",
            ),
            drawing,
            high,
        )
    rows = []
    for number, block in enumerate(stack.blocks, 1):
        die, first = plan.dies[block.die], stack.rows_of(block)[0]
        low = block.corners_mm.min(axis=0)
        high = block.corners_mm.max(axis=0) + die.rows.size_mm
        rows.append(
            [
                say("{0}: {1}", number, die.name),
                str(len(block.turned)),
                die.rows.runs,
                "half turned" if first.turned else "as drawn",
                say("{0} / {1}", f"{first.x_mm:.1f}", f"{first.y_mm:.1f}"),
                say("{0} to {1}", f"{low[0]:.0f}", f"{high[0]:.0f}"),
                say("{0} to {1}", f"{low[1]:.0f}", f"{high[1]:.0f}"),
            ]
        )
    flow.table(
        ["", "places", "rows", "first place", "at along / across, mm", "along, mm", "across, mm"], rows
    )
    flow.paragraph("The rows of every block stand in the workbook.")
