"""Write the sample styles' orders as open-format instances, for ``nesting_table.py``.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/held_out.py FOLDER [--drawn N --seed S]

With ``--drawn`` also N orders drawn from the samples: pairs by a bell curve over the sizes, 20 to 3,000
pieces, 1,200 to 1,600 mm wide.

Lays of a hundred to two thousand pieces. No engine was tuned to derby, sandal and boot; court was looked at
while bands and openings were made, and stands here for the longest run. The strip is as high as the cloth is
wide between its edge margins. Names hold a ``-``: ``nesting_table`` keeps 2 mm between their pieces.
"""

from __future__ import annotations

import argparse
import json
import math
import random
from pathlib import Path

from app.lay.job import LayJob, problem_of
from app.style.file import load_style
from app.style.model import Style
from app.style.samples import sample

PAIRS_A_SIZE = {"derby": 2, "sandal": 8, "boot": 20, "court": 40}
"""Pairs of every size in an order."""


LEAST_PIECES, MOST_PIECES = 20, 3000
"""How large an order is drawn."""


def main() -> None:
    """Write one instance a sample, and the drawn ones."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--drawn", type=int, default=0)
    parser.add_argument("--seed", type=int, default=0)
    options = parser.parse_args()
    options.folder.mkdir(parents=True, exist_ok=True)
    for name, pairs in PAIRS_A_SIZE.items():
        style = load_style(sample(name).style)
        _write(options.folder, name, style, {size: pairs for size in style.size_run.sizes}, None)
    chance = random.Random(options.seed)
    for number in range(options.drawn):
        name = chance.choice(sorted(PAIRS_A_SIZE))
        style = load_style(sample(name).style)
        sizes = list(style.size_run.sizes)
        each = problem_of(LayJob(style=style, pairs={sizes[0]: 1}, cloth_id=style.cloths[0].id)).pieces
        wished = math.exp(chance.uniform(math.log(LEAST_PIECES), math.log(MOST_PIECES))) / each
        middle, spread = chance.uniform(0.3, 0.7) * len(sizes), chance.uniform(0.15, 0.4) * len(sizes)
        bell = [math.exp(-(((k + 0.5 - middle) / spread) ** 2) / 2.0) for k in range(len(sizes))]
        wanted = {size: round(wished * b / sum(bell)) for size, b in zip(sizes, bell, strict=True)}
        wanted = {size: n for size, n in wanted.items() if n} or {sizes[len(sizes) // 2]: 1}
        _write(options.folder, f"drawn-{number}-{name}", style, wanted, 10.0 * chance.randint(120, 160))


def _write(folder: Path, name: str, style: Style, pairs: dict[str, int], width_mm: float | None) -> None:
    job = LayJob(style=style, pairs=pairs, cloth_id=style.cloths[0].id)
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
    height = width_mm or problem.roll.usable_width_mm - 2.0 * problem.edge_margin_mm
    doc = {"name": f"{name}-{problem.pieces:04d}", "strip_height": height, "items": items}
    (folder / f"{doc['name']}.json").write_text(json.dumps(doc), encoding="utf-8")
    print(f"{doc['name']}: {len(items)} items, {height:g} mm")


if __name__ == "__main__":
    main()
