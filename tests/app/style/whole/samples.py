"""The sample styles that these tests edit."""

from pathlib import Path

ROOT = Path(__file__).resolve().parents[4]
SAMPLES = {path.parent.name: path for path in (ROOT / "sample_styles").glob("*/*.style.json")}
