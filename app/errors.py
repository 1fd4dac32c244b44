"""Errors of the program around geometry and nesting; every one becomes a line on stderr, exit 2."""

from __future__ import annotations

from geometry.errors import DeskError


class AppError(DeskError):
    """Base: what is wrong, in which file, and what to do."""

    code = "APP"


class StyleFileError(AppError):
    """A style file that is missing, damaged, or from a newer version."""


class OrderError(AppError):
    """An order that cannot be read or names sizes the style does not have."""


class UsageError(AppError):
    """A command called with arguments that make no sense together."""


class HalfPatternError(UsageError):
    """A piece that is half a pattern was about to be laid or issued as if it were whole."""

    code = "HALF_PATTERN"


class UnverifiedError(AppError):
    """A lay that did not verify was about to leave the program."""


class DatabaseError(AppError):
    """A database of the workshop that is damaged, newer, or out of reach."""
