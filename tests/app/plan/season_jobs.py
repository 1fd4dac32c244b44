"""Four small jobs of a season; imported by a process of its own too, which knows no package of tests."""

from pathlib import Path

from app.plan.season import SeasonJob

ROOT = Path(__file__).parents[3]
STYLES = [ROOT / "sample_styles" / name / f"{name}.style.json" for name in ("court", "derby", "sandal")]


def tasks(seconds="1"):
    words = ("--pairs", "37:1", "--seconds", seconds, "--workers", "1", "-o", "result")
    court = STYLES[0].read_bytes()
    return [
        SeasonJob(
            f"court-{width}",
            ("lay", "court.style.json", "--width", str(width), *words),
            {"court.style.json": court},
        )
        for width in (900, 1000, 1100, 1200)
    ]
