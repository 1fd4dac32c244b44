"""Write the sample styles' orders as open-format instances, for ``nesting_table.py``.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/held_out.py FOLDER

Lays of a hundred to two thousand pieces. No engine was tuned to derby, sandal and boot; court was looked at
while bands and openings were made, and stands here for the longest run. The strip is as high as the cloth is
wide between its edge margins. Names hold a ``-``: ``nesting_table`` keeps 2 mm between their pieces.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from app.lay.job import LayJob, problem_of
from app.style.file import load_style
from app.style.samples import sample

PAIRS_A_SIZE = {"derby": 2, "sandal": 8, "boot": 20, "court": 40}
"""Pairs of every size in an order."""


def main() -> None:
    """Write one instance a sample."""
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for name, pairs in PAIRS_A_SIZE.items():
        style = load_style(sample(name).style)
        job = LayJob(
            style=style, pairs={size: pairs for size in style.size_run.sizes}, cloth_id=style.cloths[0].id
        )
        problem = problem_of(job)
        items = [
            {
                "id": number,
                "demand": item.demand,
                "allowed_orientations": list(item.turns_deg or ()),
                "shape": {"type": "simple_polygon", "data": item.outline.ring_mm.tolist()},
            }
            for number, item in enumerate(problem.items)
        ]
        height = problem.roll.usable_width_mm - 2.0 * problem.edge_margin_mm
        doc = {"name": f"{name}-{problem.pieces:04d}", "strip_height": height, "items": items}
        (folder / f"{doc['name']}.json").write_text(json.dumps(doc), encoding="utf-8")
        print(f"{doc['name']}: {len(items)} items, {height:g} mm")


if __name__ == "__main__":
    main()
