"""Press cutting told: the object of ``press --json``, and the same in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from app.cautions import caution_lines, cautions
from app.errors import UsageError
from app.measures import counted
from app.press.cuts import cuts_words
from app.press.job import PressDie, PressJob
from app.press.stacks import PressStack
from app.style.model import ClothData
from geometry.said import percent, said
from nesting.files.lay_file import read
from nesting.planning.consumption import YIELD_MEANS

SPREAD_WORDS = {
    "face-up": "all layers glue side up",
    "face-to-face": "face to face, every second layer turned over",
    "turned": "one hand glue side up, the other in stacks spread glue side down",
}


@dataclass(frozen=True, eq=False)
class PressCloth:
    """A cloth's dies, how its layers lie, and the stacks that all dies are cut from."""

    job: PressJob
    layers: int
    dies: tuple[PressDie, ...]
    stacks: tuple[PressStack, ...]

    @property
    def cloth(self) -> ClothData:
        """The cloth."""
        return self.job.cloth

    @property
    def end_loss_mm(self) -> float:
        """Lost at each end of a layer."""
        return self.job.style.rules.end_loss_mm

    @property
    def width_mm(self) -> float:
        """The usable width the dies are set out on."""
        return self.job.cloth.usable_width_mm if self.job.width_mm is None else self.job.width_mm


def rows_m(die: PressDie) -> float:
    """Return the metres of cloth the strokes take where rows go on from die to die without ends."""
    return die.strokes * die.layers / die.rows.per_m


def press_object(plans: Sequence[PressCloth], pairs: Mapping[str, int], seconds: float) -> dict[str, Any]:
    """Return the object of ``press --json``."""
    first = plans[0].job
    return {
        "style": first.style.name,
        "spread": first.spread,
        "pairs_ordered": dict(pairs),
        "dies": [_die(plan, die) for plan in plans for die in plan.dies],
        "cloths": {plan.cloth.id: _cloth(plan) for plan in plans},
        "stacks": [_stack(plan, stack) for plan in plans for stack in plan.stacks],
        "cloth_m": {plan.cloth.id: round(stack_m(plan), 3) for plan in plans},
        "assumptions": assumptions(plans),
        "cautions": cautions("press"),
        "seconds": round(seconds, 2),
    }


def assumptions(plans: Sequence[PressCloth]) -> list[str]:
    """Return what the figures take for granted, one line per matter."""
    lines: list[str] = []
    for plan in plans:
        document = plan.dies[0].document
        lines.append(
            said(
                "{0}: {1} per stroke, usable width {2} mm, gap {3} mm, margin {4} mm at the edges "
                "and {5} mm at the ends, {6} mm lost at each end of a layer",
                plan.cloth.name,
                counted(plan.layers, "layer"),
                f"{plan.width_mm:g}",
                f"{document['gap_mm']:g}",
                f"{document['edge_margin_mm']:g}",
                f"{document['end_margin_mm']:g}",
                f"{plan.end_loss_mm:g}",
            )
        )
    lines.append(
        "flaws are not avoided in the layout: the cutter works round them; ends of rolls and rejects are "
        "extra"
    )
    lines.append(
        "cloth of the stacks: all dies side by side, ends of layers lost once per stack; own strip: each "
        "die on a strip of its own, ends lost each time; endless rows: full rows without ends, never quite "
        "reached"
    )
    return lines


def die_path(die: PressDie) -> Path:
    """Return where the lay.json of a die's rows stands, from the output folder."""
    return Path(die.name) / "lay.json"


def stack_path(plan: PressCloth, stack: PressStack) -> Path:
    """Return where the lay.json of a stack stands, from the output folder."""
    return Path(f"{plan.cloth.id}-{stack.name}") / "lay.json"


def stack_m(plan: PressCloth) -> float:
    """Return the metres of cloth that a cloth's stacks take, ends of layers counted."""
    return sum(plan.layers * (s.length_mm + 2.0 * plan.end_loss_mm) for s in plan.stacks) / 1000.0


def _stack(plan: PressCloth, stack: PressStack) -> dict[str, Any]:
    return {
        "stack": stack.name,
        "cloth": plan.cloth.id,
        "glue": stack.glue,
        "layers": plan.layers,
        "length_mm": round(stack.length_mm, 3),
        "yield": stack.document["yield"],
        "cloth_m": round(plan.layers * (stack.length_mm + 2.0 * plan.end_loss_mm) / 1000.0, 3),
        "blocks": [
            {
                "die": plan.dies[block.die].name,
                "places": len(block.turned),
                "rows": [
                    {"turned": row.turned, "x_mm": row.x_mm, "y_mm": row.y_mm, "places": row.places}
                    for row in stack.rows_of(block)
                ],
            }
            for block in stack.blocks
        ],
        "lay_file": stack_path(plan, stack).as_posix(),
    }


def _die(plan: PressCloth, die: PressDie) -> dict[str, Any]:
    rows = die.rows
    return {
        "die": die.name,
        "cloth": plan.cloth.id,
        "cuts": [
            {"piece": cut.piece, "size": cut.size, "hand": cut.hand, "needed": cut.needed, "layers": lies}
            for lies, cuts in (("glue side up", die.up), ("turned over", die.over))
            for cut in cuts
        ],
        "hands": list(die.hands),
        "notes": list(die.notes),
        "edge_mm": round(die.edge_mm, 3),
        "area_mm2": round(die.outline.area_mm2, 3),
        "pieces_needed": die.needed,
        "pieces_cut": die.pieces_cut,
        "layers": die.layers,
        "strokes": die.strokes,
        "stacks": die.stacks,
        "rows_run": rows.runs,
        "step_mm": rows.step_mm,
        "row_pitch_mm": rows.pitch_mm,
        "row_shift_mm": rows.shift_mm,
        "turned_at_mm": None if rows.twin_mm is None else list(rows.twin_mm),
        "rows": [
            {"turned": row.turned, "x_mm": row.x_mm, "y_mm": row.y_mm, "places": row.places}
            for row in rows.rows
        ],
        "pieces_per_m": round(rows.per_m, 3),
        "length_mm": round(rows.length_mm, 3),
        "yield": die.document["yield"],
        "rows_yield": _rows_yield(plan, die),
        "step_times_pitch_yield": rows.density,
        "closest_yield": rows.free_density,
        "cloth_m": round(die.cloth_m(plan.end_loss_mm), 3),
        "rows_m": round(rows_m(die), 3),
        "lay_file": die_path(die).as_posix(),
    }


def _rows_yield(plan: PressCloth, die: PressDie) -> float:
    return die.rows.per_m * die.outline.area_mm2 / (1000.0 * plan.width_mm)


def _cloth(plan: PressCloth) -> dict[str, Any]:
    metres, going_on = stack_m(plan), sum(rows_m(die) for die in plan.dies)
    net = sum(die.net_mm2 for die in plan.dies) / 1e6
    wide = max(plan.cloth.width_mm, plan.width_mm) if plan.job.width_mm is None else plan.width_mm
    lengths = sum(plan.layers * stack.length_mm for stack in plan.stacks) / 1000.0
    return {
        "dies": len(plan.dies),
        "strokes": sum(die.strokes for die in plan.dies),
        "layers": plan.layers,
        "usable_width_mm": plan.width_mm,
        "metres": round(metres, 3),
        "own_strips_m": round(_own_m(plan), 3),
        "rows_m": round(going_on, 3),
        "net_m2": round(net, 4),
        "yield": round(net / (lengths * plan.width_mm / 1000.0), 6),
        "utilisation": round(net / (metres * wide / 1000.0), 6),
        "pieces_needed": sum(die.needed for die in plan.dies),
        "pieces_cut": sum(die.pieces_cut for die in plan.dies),
    }


def _own_m(plan: PressCloth) -> float:
    return sum(die.cloth_m(plan.end_loss_mm) for die in plan.dies)


def beside_knife(path: Path, plans: Sequence[PressCloth]) -> dict[str, Any]:
    """Return what the pieces of the order would take at the yield of a knife lay.

    Metres of lay length and ends of plies, by area of the pieces. Raises UsageError for a lay of
    another style or cloth, LayFileError for one that cannot be read.
    """
    lay = read(path)
    cloth_id = (lay.get("cloth") or {}).get("id", "")
    plan = next((plan for plan in plans if plan.cloth.id == cloth_id), None)
    if plan is None or lay.get("style") != plan.job.style.name:
        raise UsageError(
            said("is a lay of {0} on {1}", lay.get("style") or "no style", cloth_id or "no cloth"),
            file=str(path),
            remedy="give a lay of this style on a cloth that is pressed",
        )
    needed = sum(die.outline.area_mm2 * die.needed for die in plan.dies)
    share = needed / lay["net_area_mm2"]
    metres = share * (lay["length_mm"] + 2.0 * float(lay.get("end_loss_mm", plan.end_loss_mm))) / 1000.0
    return {
        "lay_file": str(path),
        "cloth": cloth_id,
        "usable_width_mm": lay["roll"]["usable_width_mm"],
        "yield": lay["yield"],
        "knife_m": round(metres * lay["roll"]["usable_width_mm"] / plan.width_mm, 3),
        "press_m": round(stack_m(plan), 3),
        "press_rows_m": round(sum(rows_m(die) for die in plan.dies), 3),
    }


def press_text(payload: Mapping[str, Any]) -> str:
    """Return press cutting in words, as ``press`` prints it."""
    lines = [f"{payload['style']}, {SPREAD_WORDS[payload['spread']]}"]
    for die in payload["dies"]:
        cuts = cuts_words(die["cuts"])
        turned = die["turned_at_mm"]
        twin = f", half turned at {turned[0]:+.1f} / {turned[1]:+.1f} mm (along / across)" if turned else ""
        lines.append(
            f"{die['die']} {cuts}: {counted(die['strokes'], 'stroke')} of "
            f"{counted(die['layers'], 'layer')} for "
            f"{counted(die['pieces_needed'], 'piece')}"
            f" ({die['pieces_cut'] - die['pieces_needed']} over); rows "
            f"{die['rows_run']} the roll, step {die['step_mm']:.1f} mm, pitch {die['row_pitch_mm']:.1f} mm, "
            f"each row {die['row_shift_mm']:+.1f} mm on{twin}; {die['pieces_per_m']:.1f} per metre, strip "
            f"{die['length_mm'] / 1000:.3f} m, yield {percent(die['yield'])} (endless rows "
            f"{percent(die['rows_yield'])}), {die['cloth_m']:.2f} m of cloth"
        )
        lines += [f"  {note}" for note in die["notes"]]
    for cloth, told in payload["cloths"].items():
        lines.append(
            f"{cloth}: {counted(told['dies'], 'die')}, "
            f"{counted(told['strokes'], 'stroke')}, {told['metres']:.2f} m of cloth with "
            f"all dies from one stack ({told['own_strips_m']:.2f} m on strips of their own, "
            f"{told['rows_m']:.2f} m in endless rows), yield {percent(told['yield'])}"
        )
    if "knife" in payload:
        lines.append(knife_words(payload["knife"]))
    lines += [YIELD_MEANS, *caution_lines("press")]
    lines += [f"written: {path}" for path in payload.get("files", ())]
    return "\n".join(lines)


def knife_words(knife: Mapping[str, Any]) -> str:
    """Return the comparison with a knife lay in a sentence."""
    return said(
        "at the yield of the knife lay {0} ({1}, ends of plies counted) the pieces ordered take {2} "
        "m of {3}; pressed {4} m, {5} m in endless rows",
        knife["lay_file"],
        percent(knife["yield"]),
        f"{knife['knife_m']:.2f}",
        knife["cloth"],
        f"{knife['press_m']:.2f}",
        f"{knife['press_rows_m']:.2f}",
    )
