"""The size nest shows every kind of thing that is drawn on a piece, as it lies in each of the other sizes."""

import pytest

from app.style.drafting.script import carry_out
from app.style.file import load_style
from app.style.pieces import piece_backings, upper_piece
from app.window.desks.draft.whole.nest import NestSize, drawn_path, nest_of
from tests.app.window.hands import SAMPLES

DERBY = load_style(SAMPLES["derby"])
ACROSS = {"line": [[560, 190], [560, 270]]}
HERE = {"line": [[550, 225], [570, 235]]}
DRAWN = {
    "cut": {**ACROSS, "keep": [520, 230]},
    "region": {"polygon": [[540, 220], [580, 220], [560, 245]]},
    "split": {**ACROSS, "overlap_mm": 6},
    "change": {"line": [[540, 202], [560, 212], [580, 202]]},
    "notch": {"at": {"edge": 70, "share": 0.4}, "on": "upper"},
    "relief": {"edge": 70, "pitch_mm": 8, "depth_mm": 3},
    "slit": {**HERE, "on": "backing"},
    "mark": {**HERE, "on": "upper"},
    "drill": {"at": [560, 230], "diameter_mm": 3, "on": "upper"},
    "text": {"at": [555, 230], "text": "42", "on": "upper"},
    "taper": {"edge": 70, "from_mm": 3, "to_mm": 9},
}


@pytest.mark.parametrize("do", DRAWN)
def test_each_drawn_thing_is_seen_on_every_size(qapp, do):
    style, _ = carry_out(DERBY, [{"do": do, "piece": "Counter", **DRAWN[do]}])
    sizes = [each for side in nest_of(style, "Counter", "42", drawn=True) for each in side]
    seen = [drawn_path([each]) for each in sizes]
    assert len(seen) == len(DERBY.size_run.sizes) - 1
    for each, path in zip(sizes, seen, strict=True):
        size = each.upper.size
        bare = (f(DERBY, "Counter", size, "left") for f in (upper_piece, piece_backings))
        assert path != drawn_path([NestSize(*bare, drawn=True)]), size
