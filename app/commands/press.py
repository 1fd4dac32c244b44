"""``press``: dies, strokes and rows of an order that is cut on a press."""

from __future__ import annotations

import argparse
import time
from pathlib import Path

from app.commands import Outcome, say
from app.commands.arguments import add_order, add_out_folder, check_folder, check_length, order_of
from app.commands.report import say_findings
from app.defaults.work import SEED
from app.errors import UsageError
from app.lay.live import tell_strip
from app.measures import counted
from app.papers import registry
from app.papers.paper_folder import write_folder
from app.papers.shown import Pressed
from app.press.job import SPREADS, PressJob, layers_of, press_dies
from app.press.report import PressCloth, beside_knife, die_path, press_object, press_text, stack_path
from app.press.stacks import press_stacks
from app.style.file import load_style
from app.style.model import Style
from app.style.pieces import findings, used_cloths
from app.tolerances import MOST_GAP_MM
from geometry.said import said
from nesting.files import lay_file


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="the style file")
    add_order(parser)
    parser.add_argument("--cloth", default="", metavar="ID", help="only this cloth (default: all)")
    parser.add_argument(
        "--width", type=float, metavar="MM", help="usable width of the roll (default: the cloth's)"
    )
    parser.add_argument("--gap", type=float, metavar="MM", help="gap between cuts (default: the house rule)")
    parser.add_argument(
        "--spread",
        choices=SPREADS,
        default="face-up",
        help="how layers lie; face-to-face and turned let one die cut both hands (default face-up)",
    )
    height = parser.add_mutually_exclusive_group()
    height.add_argument("--layers", type=int, metavar="N", help="layers cut per stroke")
    height.add_argument(
        "--cutting-height",
        type=float,
        metavar="MM",
        help="height the die can cut; the layers follow from the thickness of the cloth",
    )
    parser.add_argument(
        "--lay", type=Path, metavar="LAY.json", help="a knife lay of this style, to compare the cloth with"
    )
    parser.add_argument(
        "--seed", type=int, default=SEED.value, metavar="N", help="another seed may find other rows"
    )
    add_out_folder(parser)


def run(args: argparse.Namespace) -> Outcome:
    """Set out every die, judge every strip, write the press list and the lays."""
    started = time.monotonic()
    check_length(args.width, "width", 50.0, 10_000.0)
    check_length(args.gap, "gap", 0.0, MOST_GAP_MM)
    check_length(args.cutting_height, "cutting-height", 0.1, 500.0)
    check_folder(args.out)
    if args.seed < 0:
        raise UsageError(said("--seed {0} is not valid", args.seed), remedy="give a number from 0")
    style = load_style(args.style)
    pairs = {size: count for size, count in order_of(args, style).items() if count}
    jobs = [
        PressJob(
            style,
            pairs,
            cloth,
            args.spread,
            args.layers,
            args.cutting_height,
            args.width,
            args.gap,
            args.seed,
        )
        for cloth in _cloths(args, style)
    ]
    layers = [layers_of(job) for job in jobs]  # said before any work is done
    plans: list[PressCloth] = []
    for job, count in zip(jobs, layers, strict=True):
        first = 1 + sum(len(plan.dies) for plan in plans)
        dies = press_dies(job, tell=say, show=lambda die: tell_strip(die.document, die.name), first=first)
        say(said("{0}: setting out {1} in one stack", job.cloth.name, counted(len(dies), "die")))
        plans.append(PressCloth(job, count, dies, press_stacks(job, dies)))
    say_findings(findings(style, list(pairs)))
    payload = press_object(plans, pairs, time.monotonic() - started)
    if args.lay is not None:
        payload["knife"] = beside_knife(args.lay, plans)

    def fill(draft: Path) -> list[Path]:
        written = registry.write(Pressed(payload, plans), draft)
        for plan in plans:
            lays = [(die_path(die), die.document) for die in plan.dies]
            lays += [(stack_path(plan, stack), stack.document) for stack in plan.stacks]
            for name, document in lays:
                (draft / name).parent.mkdir()
                lay_file.write(draft / name, document)
                written.append(draft / name)
        return written

    payload["files"] = [str(path) for path in write_folder(args.out, fill)]
    return Outcome(payload, press_text(payload))


def _cloths(args: argparse.Namespace, style: Style) -> list[str]:
    """Return the cloths to press; raises UsageError for one that nothing is cut from."""
    used = list(used_cloths(style))
    if args.cloth:
        if args.cloth not in used:
            raise UsageError(
                said("nothing is cut from {0}", args.cloth),
                remedy=said("the cloths are {0}", ", ".join(used)),
            )
        return [args.cloth]
    if not used:
        raise UsageError("no piece of this style is backed", remedy="give a piece a backing layer")
    if args.width is not None and len(used) > 1:
        raise UsageError(
            said("--width is for one cloth, the style is cut from {0}", ", ".join(used)), remedy="add --cloth"
        )
    return used
