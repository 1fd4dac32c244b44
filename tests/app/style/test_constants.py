"""Where fitted constants come from is kept as figures; files and tables with a sentence are still read."""

from __future__ import annotations

from app.style.saved.constants import SheetConstants
from app.words import in_language, told

FIGURES = {"e1_n_per_mm": 40.0, "e2_n_per_mm": 16.0, "g12_n_per_mm": 1.2, "nu12": 0.2}


def test_the_sentence_of_older_files_is_read_as_figures() -> None:
    old = SheetConstants.model_validate(
        {**FIGURES, "source": "fitted to 12 strips at 0.5 N/mm; nu12 assumed"}
    )
    assert old.fitted is not None and old.source == ""
    assert (old.fitted.strips, old.fitted.pull_n_per_mm, old.fitted.nu12_measured) == (12, 0.5, False)
    assert SheetConstants.model_validate(old.model_dump()) == old
    assert SheetConstants.model_validate({**FIGURES, "source": old.origin}) == old  # as a table holds it


def test_the_origin_is_said_in_the_language_of_the_paper() -> None:
    fitted = SheetConstants.model_validate(
        {**FIGURES, "fitted": {"strips": 12, "pull_n_per_mm": 0.5, "nu12_measured": True}}
    )
    assert str(fitted.origin) == "fitted to 12 strips at 0.5 N/mm; nu12 measured"
    with in_language("it"):
        assert told(fitted.origin) == "ricavate da 12 strisce a 0,5 N/mm; nu12 misurato"


def test_what_a_person_wrote_stays_as_written() -> None:
    named = SheetConstants.model_validate({**FIGURES, "source": "supplier, sheet 12, fitted to 3 strips"})
    assert named.fitted is None and named.origin == "supplier, sheet 12, fitted to 3 strips"
