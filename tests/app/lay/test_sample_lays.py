"""The samples, laid: every lay verifies, every pull axis lies on the tight direction, nothing is missing."""

from __future__ import annotations

from collections import Counter

import pytest

from app.lay.job import LayJob, document_of, problem_of
from app.style.file import load_style
from app.style.orders import for_style, read_order
from app.style.pieces import used_cloths
from app.style.samples import NAMES, sample
from geometry.pull import undirected_deg
from nesting.engine import solve as engine
from nesting.stop import Deadline
from nesting.verify import verify, verify_document


@pytest.mark.parametrize("name", NAMES)
def test_a_pair_of_every_size_on_every_cloth(name: str) -> None:
    style = load_style(sample(name).style)
    order = for_style(read_order(sample(name).order), style)
    pairs = {size: 1 for size in order}
    laid: Counter[tuple[str, str, str]] = Counter()
    for cloth in used_cloths(style):
        job = LayJob(style, pairs, cloth)
        problem = problem_of(job)
        lay = engine.solve(problem, stop=Deadline(1.0), workers=1)
        assert verify(problem, lay).ok
        document = document_of(job, problem, lay)
        assert verify_document(document).ok
        tight = document["roll"]["tight_direction_deg"]
        for at in document["placements"]:
            assert abs(undirected_deg(at["pull_axis_deg"] - tight)) < 1e-6
            laid[at["piece"].partition(",")[0], at["size"], at["hand"]] += 1
    expected = {
        (piece.name, size, hand): piece.per_shoe * len(piece.layers)
        for piece in style.pieces
        for size in pairs
        for hand in ("left", "right")
        if piece.layers
    }
    assert laid == expected
