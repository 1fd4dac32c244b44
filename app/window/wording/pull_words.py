"""The pull over the upper in words: its cases, what is at work, and why line and field differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication

from app.window.widgets.lengths import Lengths

if TYPE_CHECKING:  # finite elements are loaded when the pull is first asked for
    from app.hold.two_models import TwoModels
    from app.window.running.pull_solver import PullAnswer

translate = QCoreApplication.translate


def case_title(case: str) -> str:
    """Return the title of a case."""
    return {
        "alone": translate("Pull", "Upper alone"),
        "backed": translate("Pull", "Backed as drafted"),
        "turned": translate("Pull", "Cloth turned by 90°"),
    }.get(case, case)


def at_work(what: str) -> str:
    """Return what the model is at, as it calls it; the name of a cloth stays."""
    return {
        "": translate("Pull", "waiting until the changes are made"),
        "elements": translate("Pull", "mesh"),
        "alone": translate("Pull", "upper alone"),
        "backed": translate("Pull", "backed as drafted"),
        "turned": translate("Pull", "cloth turned by 90°"),
        "map": translate("Pull", "map"),
    }.get(what, what)


def second_level(name: str) -> str:
    """Return the name of a way of the second level."""
    return {
        "large strain": translate("Pull", "large strain"),
        "tension field": translate("Pull", "tension field"),
    }[name]


def range_text(span: tuple[float, float] | None, lengths: Lengths) -> str:
    """Return a range of lengths."""
    if span is None:
        return "–"
    low, high = lengths.number(span[0]), lengths.text(span[1])
    if low == lengths.number(span[1]):
        return high
    if low.startswith("-"):
        return translate("Pull", "{0} to {1}").format(low, high)
    return f"{low}–{high}"


def why_text(models: TwoModels, lengths: Lengths) -> str:
    """Return why line and field differ; the same as the papers say."""
    if not models.line_mm:
        return translate(
            "Pull",
            "No hold line is drawn from heel to throat, so the line model has no figure to set beside these.",
        )
    said = [
        translate(
            "Pull",
            "Line and field answer the same question for {0}. The line takes a strip of one width from heel to throat under the pull per mm of the toe edge; the field takes the whole piece, with bare margins where the backing stops short.",
        ).format(models.called)
    ]
    if models.force_ratio is not None:
        said.append(
            translate(
                "Pull",
                "Between heel and throat the piece bears {0} times the line’s force per mm, by its widths.",
            ).format(lengths.decimal(models.force_ratio))
        )
    if models.gives_less:
        said.append(
            translate(
                "Pull",
                "The throat gives less than the line says: the pull runs past it into the wide parts beside it.",
            )
        )
    if models.bends:
        said.append(
            translate(
                "Pull",
                "More than half of the area is pushed: drawn flat, the piece bends in its plane, which the last does not let it do. Here the line is nearer to the job.",
            )
        )
    said.append(translate("Pull", "The lasting trial says which of them to trust."))
    return " ".join(said)


def field_beside(answer: PullAnswer | None, lengths: Lengths) -> str:
    """Return what the field says beside the line's figures, and why; without an answer where to find it."""
    if answer is None or answer.pulled is None or answer.models is None:
        return translate(
            "Pull",
            "These figures follow the hold line, a strip of one width. The page Pull (Alt+6) takes the whole piece, its narrow wings and bare margins, and mostly gives more; it shows both side by side.",
        )
    models = answer.models
    if not models.line_mm:
        return why_text(models, lengths)
    told = [
        translate("Pull", "{0}: {1}, by the line {2}").format(
            case_title(case.case),
            range_text(case.throat_mm, lengths),
            range_text(models.line_mm[case.case], lengths),
        )
        for case in answer.pulled.field.cases
    ]
    head = translate("Pull", "The field puts the throat of {0} elsewhere.").format(models.called)
    return f"{head} {'; '.join(told)}. {why_text(models, lengths)}"
