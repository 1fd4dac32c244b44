"""``demo``: the whole job on a sample style, from drawing to cost, without a screen."""

from __future__ import annotations

import argparse
import shutil
import time
from pathlib import Path
from typing import Any

from app.cautions import caution_lines, cautions
from app.commands import Outcome, say
from app.commands.arguments import add_out_folder, check_folder
from app.commands.backing import backing_drawing
from app.commands.report import say_findings
from app.commands.solving import solve
from app.cost.per_pair import (
    ClothCost,
    NestedWidth,
    cloth_width,
    compare_widths,
    nest_width,
    net_m2_per_pair,
    roll_width,
    used,
)
from app.cost.report import cost_object
from app.defaults.work import DEMO_SECONDS
from app.hold.verdicts import style_hold
from app.lay.job import LayJob, document_of, judged
from app.lay.kept import open_kept
from app.measures import counted
from app.papers import registry
from app.papers.formats.dxf import write_dxf
from app.papers.lay_folder import write_lay_files
from app.papers.paper_folder import write_folder
from app.papers.shown import Costed, Drafted, Held, Reinforced
from app.style.file import load_style
from app.style.model import Style
from app.style.orders import for_style, read_order
from app.style.pieces import backings, findings, uppers_and_backings
from app.style.samples import NAMES, Sample, sample
from geometry.dxf.read import read_drawing
from geometry.said import percent
from nesting.files import lay_file
from nesting.lay import Lay
from nesting.planning.consumption import YIELD_MEANS
from nesting.problem import LayProblem
from nesting.verify import verify_document
from nesting.verify.fault import Verdict

WIDTHS_MM = (1200.0, 1500.0)  # roll widths that cloth is often sold in, to compare with the style's own


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    add_out_folder(parser)
    parser.add_argument("--style", choices=NAMES, default=NAMES[0], help=f"the sample (default {NAMES[0]})")
    parser.add_argument(
        "--seconds", type=float, default=DEMO_SECONDS.value, metavar="S", help="time for a lay"
    )


def run(args: argparse.Namespace) -> Outcome:
    """Do every step, write everything, say what each made."""
    start = time.monotonic()
    out: Path = args.out
    check_folder(out)
    found = sample(args.style)
    drawing = read_drawing(found.drawing, unit="auto")
    say(
        f"pieces: {len(drawing.pieces)} read from {found.drawing.name} "
        f"in {drawing.unit} ({drawing.unit_from})"
    )
    style = load_style(found.style)
    order = for_style(read_order(found.order), style, source=str(found.order))
    sizes = style.size_run.sizes
    say_findings(findings(style, sizes))
    files = _draft(found, style, out)
    say(f"style {style.name}: backing in sizes {', '.join(sizes)}, boards in size {style.size_run.base}")

    kept = open_kept(say)

    def solver(problem: LayProblem, label: str) -> Lay:
        return solve(problem, seconds=args.seconds, seed=0, workers=2, label=label, store=kept)

    nested = {cloth.id: nest_width(style, cloth, order, cloth_width(cloth), solver) for cloth in used(style)}
    verdict, document = _lay(style, nested, files, out)
    costs = [
        ClothCost(style.cloth(key), each, net_m2_per_pair(style, list(order), key))
        for key, each in nested.items()
    ]
    others = [roll_width(costs[0].cloth, width) for width in WIDTHS_MM]
    own = costs[0].nested.width
    widths = sorted({own, *others}, key=lambda width: width.width_mm)
    cost = cost_object(style, order, costs, compare_widths(style, order, costs[0], widths, solver))
    costed = Costed(style, cost, costs[0].cloth.id)
    files += write_folder(out, lambda draft: registry.write(costed, draft))
    seconds = time.monotonic() - start
    result = {
        "style": style.name,
        "out": str(out),
        "files": [str(path) for path in files],
        "ok": verdict.ok,
        "length_mm": document["length_mm"],
        "yield": document["yield"],
        "cost": cost,
        "cautions": cautions("demo"),
        "seconds": round(seconds, 1),
    }
    return Outcome(result, _text(result, document, verdict, files), 0 if verdict.ok else 1)


def _draft(found: Sample, style: Style, out: Path) -> list[Path]:
    """Write the style with its drawing and order, the backing, the boards and the sheets."""
    base = (style.size_run.base,)
    held = style_hold(style)
    for each in held.failing:
        say(f"hold: {each.called} breaks its limit")

    def fill(draft: Path) -> list[Path]:
        copies = [
            Path(shutil.copyfile(path, draft / path.name))
            for path in (found.style, found.drawing, found.order)
        ]
        backing = write_dxf(backing_drawing(backings(style, style.size_run.sizes)), draft / "backing.dxf")
        papers = registry.write(Drafted(style, uppers_and_backings(style, base)), draft)
        papers += registry.write(Reinforced(style, uppers_and_backings(style, base, ("left",))), draft)
        papers += registry.write(Held(style, held), draft)
        return [*copies, backing, *papers]

    return write_folder(out, fill)


def _lay(
    style: Style, nested: dict[str, NestedWidth], files: list[Path], out: Path
) -> tuple[Verdict, dict[str, Any]]:
    """Write the lay of the first cloth, and judge it again as it stands in its file."""
    cloth_id, first = next(iter(nested.items()))
    job = LayJob(style, first.pairs, cloth_id, with_flaws=False)
    document = document_of(job, first.problem, first.lay)
    files += write_lay_files(style, job, document, judged(first.problem, first.lay), out)
    return verify_document(lay_file.read(out / "lay.json")), document


def _text(result: dict[str, Any], document: dict[str, Any], verdict: Verdict, files: list[Path]) -> str:
    pairs = sum(document["pairs"].values())
    cost = result["cost"]
    average = cost["average"]
    price = "" if average["cost"] is None else f" and costs {average['cost']} {cost['currency']}"
    return "\n".join(
        [
            f"{result['style']}: a lay of {counted(pairs, 'pair')}, "
            f"{counted(len(document['placements']), 'piece')}, on "
            f"{document['cloth']['name']}: {document['length_mm'] / 1000:.3f} m, "
            f"yield {percent(document['yield'])}",
            f"{'verified' if verdict.ok else 'FAULTY'}: {verdict.checked}",
            f"a pair takes {average['metres']:.4f} m{price}, averaged over the order of "
            f"{counted(cost['total']['pairs'], 'pair')}; utilisation {percent(cost['utilisation'])}",
            YIELD_MEANS,
            *caution_lines("demo"),
            *(f"written: {path}" for path in files),
            f"done in {result['seconds']:.0f} s",
        ]
    )
