"""Line and field answer the same question: each figure is told beside the other's, and why they differ."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely

from app.hold.chain import ChainHold
from app.hold.cloth_choice import in_place_of_first
from app.hold.field import FieldOptions, Pulled
from app.hold.verdicts import PieceHold, style_hold
from app.style.model import Style
from geometry.said import joined, said
from geometry.stretch.field.answers import FieldCase, Motion, Range

WIDTHS = 24
"""This many cuts across the piece tell how wide it is between heel and throat."""

BENDS_SHARE = 0.5
"""Where more of the area than this is pushed, the flat piece bends in its plane; on the last it cannot."""


@dataclass(frozen=True)
class TwoModels:
    """What the line says to each case, and why the field says other.

    ``line_mm`` by case ('alone', 'backed', 'turned') and by the ids of other cloths; empty without a hold
    line. ``force_ratio``: how many times the line's force per mm the piece bears in the mean between heel
    and throat, by its widths. ``bends``: so much of it is pushed that it bends in its plane. ``gives_less``:
    the field's throat moves less than the line's, upper alone.
    """

    called: str
    line_mm: dict[str, Range]
    force_ratio: float | None
    bends: bool
    gives_less: bool = False


def two_models(style: Style, pulled: Pulled, options: FieldOptions) -> TwoModels:
    """Return the line's figures for the cases of a field. Raises as ``style_hold`` does."""
    called = pulled.question.called
    bends = pulled.field.case("backed").compressed_share > BENDS_SHARE
    held = _judged(style, called, options) if called else None
    if held is None:
        return TwoModels(called, {}, None, bends)
    hold, turned = held.hold, held.turned(90.0) if held.is_backed else held.hold
    line = {
        "alone": (hold.upper_mm, hold.upper_mm),
        "backed": (hold.low_mm, hold.high_mm),
        "turned": (turned.low_mm, turned.high_mm),
    }
    for tried in pulled.cloths:
        other = _judged(in_place_of_first(style, tried.cloth), called, options)
        if other is not None:
            line[f"cloth {tried.cloth.id}"] = (other.hold.low_mm, other.hold.high_mm)
    throat = pulled.field.case("alone").best.throat_mm
    less = throat is not None and throat < line["alone"][0]
    return TwoModels(called, line, _force_ratio(pulled), bends, less)


def why(told: TwoModels) -> str:
    """Return why line and field differ, in plain words."""
    if not told.line_mm:
        return (
            "No hold line is drawn from heel to throat, so the line model has no figure to set beside these."
        )
    text: list[str] = [
        said(
            "Line and field answer the same question for {0}. The line takes a strip of one width "
            "from heel to throat under the pull per mm of the toe edge; the field takes the whole "
            "piece, with bare margins where the backing stops short.",
            told.called,
        )
    ]
    if told.force_ratio is not None:
        text.append(
            said(
                "Between heel and throat the piece bears {0} times the line's force per mm, by its widths.",
                f"{told.force_ratio:.1f}",
            )
        )
    if told.gives_less:
        text.append(
            "The throat gives less than the line says: the pull runs past it into the wide parts beside it."
        )
    if told.bends:
        text.append(
            "More than half of the area is pushed: drawn flat, the piece bends in its plane, which the last "
            "does not let it do. Here the line is nearer to the job."
        )
    return joined(*text, "The lasting trial says which of them to trust.", by=" ")


def beside_line(pulled: Pulled, told: TwoModels) -> str:
    """Return what the field says, for a page or paper of the line's figures."""
    throats = [
        said("{0} {1} (line {2})", words, span_words(case.throat_mm), span_words(told.line_mm[case.case]))
        for case, words in zip(pulled.field.cases, ("alone", "backed", "turned by 90 deg"), strict=True)
        if case.throat_mm is not None and case.case in told.line_mm
    ]
    if not throats:
        return why(told)
    return said(
        "The field model puts the throat of {0}: {1}. {2}", told.called, joined(*throats, by=", "), why(told)
    )


def span_words(span: Range) -> str:
    """Return a range in mm as it is told everywhere: one figure where both ends round to it."""
    low, high = f"{span[0]:.1f}", f"{span[1]:.1f}"
    return said("{0} mm", low) if low == high else said("{0} to {1} mm", low, high)


def field_json(pulled: Pulled, told: TwoModels, seconds: float) -> dict[str, Any]:
    """Return ``field`` of ``hold --json``: mm of the drawing's frame, strains in per cent."""
    field = pulled.field
    change = field.throat_change_share
    return {
        "pieces": [piece.name for piece in pulled.question.upper.pieces],
        "hold_line_of": told.called or None,
        "cases": [
            {"case": case.case, **_case_json(pulled, case, told.line_mm.get(case.case))}
            for case in field.cases
        ],
        "cloths": [
            {
                "cloth": each.cloth.id,
                "name": each.cloth.name,
                **_case_json(pulled, each.case, told.line_mm.get(f"cloth {each.cloth.id}")),
            }
            for each in pulled.cloths
        ],
        "sweep": [{"turn_deg": turn, "throat_mm": _range(span)} for turn, span in pulled.sweep],
        "why": why(told),
        "mesh": {
            "elements": len(field.mesh.triangles),
            "size_mm": field.size_mm,
            "throat_change_percent": None if change is None else round(100.0 * change, 2),
        },
        "seconds": round(seconds, 2),
    }


def _case_json(pulled: Pulled, case: FieldCase, line: Range | None) -> dict[str, Any]:
    strains = case.strains
    return {
        "throat_mm": _range(case.throat_mm),
        "line_mm": _range(line),
        "vamp_mm": _range(case.vamp_mm),
        "side_mm": _range(case.side_mm),
        "strain_percent": {
            "median": round(100.0 * strains.median_strain, 2),
            "max": round(100.0 * strains.peak_strain, 2),
            "along": round(100.0 * strains.along_strain, 2),
            "across": round(100.0 * strains.across_strain, 2),
        },
        "compressed_share": round(case.compressed_share, 3),
        "large_strain": _motion(case.large),
        "tension_field": _motion(case.wrinkled),
        "unsettled": list(case.unsettled),
        "peel": [
            {
                "piece": place.piece,
                "layer": place.layer,
                "at_mm": [round(value, 1) for value in pulled.question.in_drawing(place.at_mm)],
                "length_mm": round(place.length_mm, 1),
                "force_n_per_mm": round(place.force_n_per_mm, 3),
                "shear_n_per_mm": round(place.shear_n_per_mm, 3),
            }
            for place in case.peel
        ],
    }


def _motion(motion: Motion | None) -> dict[str, Any] | None:
    if motion is None:
        return None
    return {
        name: None if value is None else round(value, 2)
        for name, value in (
            ("throat_mm", motion.throat_mm),
            ("vamp_mm", motion.vamp_mm),
            ("side_mm", motion.side_mm),
        )
    }


def _range(span: Range | None) -> list[float] | None:
    return None if span is None else [round(span[0], 2), round(span[1], 2)]


def _judged(style: Style, called: str, options: FieldOptions) -> PieceHold | ChainHold | None:
    held = style_hold(style, size=options.size, turn_deg=options.turn_deg)
    return next((each for each in held.judged if each.called == called and each.has_line), None)


def _force_ratio(pulled: Pulled) -> float | None:
    """The whole pull over the widths of the piece between heel and throat, in units of the pull per mm."""
    upper = pulled.question.upper
    if upper.throat_mm is None:
        return None
    (heel, _), (throat, _) = upper.throat_mm
    region = shapely.union_all([piece.region for piece in upper.pieces])
    _, low, _, high = region.bounds
    places = np.linspace(heel, throat, WIDTHS + 2)[1:-1]
    cuts = [shapely.LineString([(x, low - 1.0), (x, high + 1.0)]) for x in places]
    widths = np.array([region.intersection(cut).length for cut in cuts])
    if not (widths > 0.0).all():
        return None
    return float((pulled.model.membrane.whole_pull_n / widths).mean()) / upper.pull_n_per_mm
