"""Where figures come from: invented readings are never called tested; a standard not read is not followed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from app.hold.materials import how_tested
from app.style.file import load_style

ROOT = Path(__file__).parents[2]
SAMPLES = sorted((ROOT / "sample_styles").glob("*/*.style.json"))
FOLLOWED = re.compile(r"\b(follow|compl[yi]|conform)\w*\b[^.;]{0,60}\b(ISO|ASTM|ASME|DIN|EN)\b[ -]?\w?\d")


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_readings_that_were_invented_are_called_an_example(path: Path) -> None:
    style = load_style(path)
    assert all(cloth.how_known == "example" for cloth in style.cloths)
    assert all("example" in cloth.press.source for cloth in style.cloths if cloth.press is not None)
    for material in (*style.cloths, style.upper_material):
        assert not material.tests or how_tested(material.tests) == "example"


def test_nothing_claims_to_follow_a_standard_that_was_not_read_in_full() -> None:
    """A report or a drawing resembles one, or uses its layers; only exact definitions (an inch) are used."""
    folders = [ROOT / name for name in ("app", "geometry", "nesting", "sample_styles", "docs")]
    paths = [p for folder in folders for p in folder.rglob("*") if p.suffix in (".py", ".md")]
    claims = [
        f"{path.relative_to(ROOT)}: {found.group()}"
        for path in [*paths, ROOT / "README.md"]
        for found in FOLLOWED.finditer(" ".join(path.read_text(encoding="utf-8").split()))
    ]
    assert claims == []
    assert FOLLOWED.search("The report follows ISO 13934-1") and not FOLLOWED.search("resembles ISO 13934-1")
