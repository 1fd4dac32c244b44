"""Errors that nesting raises when it cannot go on."""

from __future__ import annotations

from geometry.errors import DeskError


class NestingError(DeskError):
    """Base of all errors of this package: what is wrong, and what to do about it."""

    code = "NESTING"


class ProblemError(NestingError):
    """A question that has no answer: a piece wider than the roll, no demand, no turn allowed."""

    code = "BAD_PROBLEM"


class TooLongError(ProblemError):
    """The pieces take more length than the roll, the table or the remnant has."""

    code = "TOO_LONG"

    @classmethod
    def of(cls, length_mm: float, limit_mm: float) -> TooLongError:
        """Say by how much the shortest lay found misses what there is."""
        return cls(
            f"the pieces take {length_mm / 1000:.2f} m, the lay may be {limit_mm / 1000:.2f} m long",
            remedy="plan them over several lays, lay fewer, or give more time",
        )


class EngineError(NestingError):
    """The engine's process ended without an answer."""

    code = "ENGINE"


class CancelledError(EngineError):
    """The search was stopped before it had found any lay."""

    code = "CANCELLED"


class LayFileError(NestingError):
    """A lay or instance file that cannot be read."""

    code = "BAD_LAY_FILE"


class PlanError(NestingError):
    """An order that no plan can meet under the limits given."""

    code = "NO_PLAN"
