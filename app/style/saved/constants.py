"""The elastic constants of a material's card, and where they come from."""

from __future__ import annotations

import re
from typing import Any

from pydantic import Field, model_validator

from app.style.saved.base import Model
from geometry.said import said

_SENTENCE = re.compile(r"fitted to (\d+) strips at ([\d.e+-]+) N/mm; nu12 (measured|assumed)")
"""The source of fitted constants as it stood in files until November 2026, and stands in tables (CSV)."""


class FittedStrips(Model):
    """The strips that constants were fitted to: how many, read at which pull, whether nu12 was read too."""

    strips: int = Field(ge=1)
    pull_n_per_mm: float = Field(gt=0)
    nu12_measured: bool


class SheetConstants(Model):
    """Constants of an orthotropic sheet per width: axis 1 is the tight direction.

    They come from strips (``fitted``), else from what a person names as their ``source``.
    """

    e1_n_per_mm: float = Field(gt=0)
    e2_n_per_mm: float = Field(gt=0)
    g12_n_per_mm: float = Field(gt=0)
    nu12: float
    source: str = ""
    fitted: FittedStrips | None = None

    @model_validator(mode="before")
    @classmethod
    def _sentence(cls, data: Any) -> Any:
        source = data.get("source") if isinstance(data, dict) else None
        told = _SENTENCE.fullmatch(source) if isinstance(source, str) else None
        if told is None:
            return data
        strips, pull, nu12 = told.groups()
        fitted = {"strips": int(strips), "pull_n_per_mm": float(pull), "nu12_measured": nu12 == "measured"}
        return {**data, "source": "", "fitted": fitted}

    @property
    def origin(self) -> str:
        """Where the constants come from, in words; '' where nothing says it."""
        if self.fitted is None:
            return self.source
        words = (
            "fitted to {0} strips at {1} N/mm; nu12 measured"
            if self.fitted.nu12_measured
            else "fitted to {0} strips at {1} N/mm; nu12 assumed"
        )
        return said(words, self.fitted.strips, f"{self.fitted.pull_n_per_mm:g}")
