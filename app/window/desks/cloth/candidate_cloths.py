"""Cloths to compare with the style's first one."""

from __future__ import annotations

from collections.abc import Callable

from app.errors import AppError
from app.style.model import ClothData, Style
from app.workshop.cloth_register import ClothRegister


def candidate_cloths(
    style: Style, of_register: bool, refused: Callable[[str], object]
) -> tuple[ClothData, ...]:
    """Return the style's cloths of known stretch, and those of the register where asked for.

    ``refused`` is called with the reason why the register cannot be read; the style's own cloths are
    returned all the same.
    """
    own = {cloth.id: cloth for cloth in style.cloths}
    if of_register:
        try:
            own = {entry.id: entry.cloth for entry in ClothRegister().entries("cloth")} | own
        except AppError as error:
            refused(str(error))
    return tuple(cloth for cloth in own.values() if cloth.tests or cloth.sheet)
