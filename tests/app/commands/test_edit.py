"""``edit``: what a pattern maker draws, drawn without a window, and what it does to every size."""

import json
from pathlib import Path

import pytest

from app.__main__ import main
from app.commands.backing import backing_drawing
from app.lay.job import LayJob, problem_of
from app.papers import boards
from app.papers.shown import Drafted
from app.style.file import load_style, save_style
from app.style.pieces import backings, piece_backings, uppers_and_backings
from nesting.free import first_layout
from nesting.verify import verify
from sample_styles import __file__ as samples

DERBY = Path(samples).parent / "derby" / "derby.style.json"
DRAWN = [
    {"do": "remove", "piece": "Vamp", "what": "layer", "number": 1},
    {"do": "layer", "piece": "Vamp", "cloth": "twill-150"},
    {
        "do": "cut",
        "piece": "Vamp",
        "line": [[146, 10], [160, 70], [165, 130], [160, 190], [146, 250]],
        "smooth": True,
        "keep": [120, 130],
    },
    {
        "do": "region",
        "piece": "Quarter inner",
        "layer": "new",
        "cloth": "plain-110",
        "band": {"edge": 77, "width_mm": 18, "from_share": 0.1, "to_share": 0.5},
    },
    {
        "do": "split",
        "piece": "Quarter outer",
        "line": [[340, 150], [345, 290]],
        "names": ["back", "front"],
        "overlap_mm": 10,
    },
    {"do": "taper", "piece": "Quarter outer", "edge": 54, "from_mm": 4, "to_mm": 8},
]


@pytest.fixture
def derby(tmp_path):
    path = tmp_path / "derby.style.json"
    save_style(load_style(DERBY), path)
    return path


def edit(path, edits, *more, capsys=None):
    listed = path.parent / "edits.json"
    listed.write_text(json.dumps(edits))
    return main(["edit", str(path), "--edits", str(listed), *more])


def test_the_derby_is_drawn_and_graded_over_the_run(derby, capsys):
    assert edit(derby, DRAWN, "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert told["written"] == str(derby)
    style = load_style(derby)
    for size in style.size_run.sizes:
        for hand in ("left", "right"):
            front, *_ = piece_backings(style, "Quarter outer", size, hand)
            assert front.part_names == ("back", "front")
            both = front.outlines[0].polygon.intersection(front.outlines[1].polygon)
            across = both.minimum_rotated_rectangle.exterior.length / 2
            assert both.area / (across - 10.0) == pytest.approx(10.0, abs=1.0)  # a strip 10 mm wide
            layers = piece_backings(style, "Quarter inner", size, hand)
            assert len(layers) == 3 and layers[2].area_mm2 > 0
            vamp = piece_backings(style, "Vamp", size, hand)[0]
            assert vamp.area_mm2 < 0.8 * vamp.upper.outline.area_mm2  # the toe is free


def test_boards_and_a_verified_lay_come_of_it(derby, tmp_path):
    assert edit(derby, DRAWN) == 0
    style = load_style(derby)
    base = [style.size_run.base]
    assert boards.write(Drafted(style, uppers_and_backings(style, base)), tmp_path / "boards")
    assert backing_drawing(backings(style, base)).marks
    problem = problem_of(LayJob(style, {"42": 1}))
    names = {item.piece for item in problem.items}
    assert {"Quarter outer, part back", "Quarter outer, part front"} <= names
    lay = first_layout.solve(problem)
    assert verify(problem, lay).ok


def test_an_edit_that_cannot_be_done_names_file_piece_and_remedy_and_writes_nothing(derby, capsys):
    before = derby.read_bytes()
    wrong = [*DRAWN[:3], {"do": "taper", "piece": "Quarter outer", "edge": 55, "from_mm": 4, "to_mm": 8}]
    assert edit(derby, wrong) == 2
    told = capsys.readouterr().err
    assert "edit 4" in told and "Quarter outer" in told and "its edges start at" in told
    assert str(derby) in told
    assert derby.read_bytes() == before


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"do": "fold", "piece": "Vamp"}, "there is no edit"),
        ({"do": "taper", "piece": "Sole", "edge": 0, "from_mm": 4, "to_mm": 8}, "no such piece"),
        ({"do": "cut", "piece": "Vamp", "line": [[0, 0], [1, 1]], "keep": [0, 5]}, "misses the piece"),
        ({"do": "cut", "piece": "Vamp", "line": [[0, 0]], "keep": [0, 5]}, "give 2 or more"),
        ({"do": "split", "piece": "Tongue", "line": [[0, 0], [9, 9]]}, "no layer 1"),
        ({"do": "taper", "piece": "Vamp", "edge": "underlay", "from_mm": 4, "to_mm": 8}, "3 edges of kind"),
        ({"do": "taper", "piece": "Vamp", "edge": 0, "from_mm": "four", "to_mm": 8}, "is not a number"),
        ({"do": "taper", "piece": "Vamp", "edge": 0, "from_mm": 4, "to_mm": 8, "too": 1}, "too is not known"),
        ({"do": "join", "piece": "Vamp", "with": "Vamp"}, "joined already"),
        ({"do": "relief", "piece": "Quarter outer", "edge": 54, "pitch_mm": 0.1, "depth_mm": 4}, "pitch_mm"),
        ({"do": "remove", "piece": "Vamp", "what": "split"}, "split 1 is not there"),
        ({"do": "layer", "piece": "Vamp", "cloth": "silk"}, "no cloth silk"),
    ],
)
def test_bad_edits_are_refused_in_words(derby, capsys, asked, says):
    assert edit(derby, [asked]) == 2
    told = capsys.readouterr().err
    assert says in told and len(told.strip().splitlines()) == 1


def test_flags_do_the_common_ones(derby, tmp_path, capsys):
    out = tmp_path / "other.style.json"
    flags = ["--beside", "Counter", "lasting", "25", "--stay", "Counter", "70", "15", "plain-110"]
    flags += [
        "--taper",
        "Quarter outer",
        "54",
        "4",
        "8",
        "--split",
        "Quarter outer",
        "340,150",
        "345,290",
        "0",
    ]
    assert main(["edit", str(derby), *flags, "-o", str(out), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    counter = next(p for p in told["pieces"] if p["name"] == "Counter")
    assert [len(layer["parts"]["42"]) for layer in counter["layers"]] == [1, 1]
    style = load_style(out)
    assert [part for part in piece_backings(style, "Quarter outer", "45", "left")[0].part_names] == ["A", "B"]
    assert load_style(derby) == load_style(DERBY)


def test_without_edits_it_shows_what_there_is_and_writes_nothing(derby, capsys):
    before = derby.read_bytes()
    assert main(["edit", str(derby)]) == 0
    told = capsys.readouterr().out
    assert "54 folded" in told and "nothing was written" in told
    assert derby.read_bytes() == before


def test_the_line_that_a_style_brought_along_can_be_taken_back(derby):
    before = piece_backings(load_style(derby), "Vamp", "42", "left")[0].area_mm2
    assert edit(derby, [{"do": "remove", "piece": "Vamp", "what": "keep"}]) == 0
    assert piece_backings(load_style(derby), "Vamp", "42", "left")[0].area_mm2 > before


def test_two_pieces_backed_in_one_stay_together_over_the_seam_in_every_size(derby):
    style = load_style(derby)
    counter = style.piece("Counter")
    halves = []  # two halves of a counter that are sewn in the middle, as an assembled upper would show them
    for name, x in (("Counter", 478.0), ("Twin", 560.0)):
        outline = ((x, 200.0), (x + 82.0, 200.0), (x + 82.0, 260.0), (x, 260.0))
        drawing = counter.drawings["42"].model_copy(update={"outline_mm": outline})
        edges = tuple(e.model_copy(update={"start": k}) for k, e in enumerate(counter.edges))
        halves.append(counter.model_copy(update={"name": name, "drawings": {"42": drawing}, "edges": edges}))
    others = [piece for piece in style.pieces if piece is not counter]
    save_style(style.model_copy(update={"pieces": (*others, *halves)}), derby)
    assert edit(derby, [{"do": "join", "piece": "Counter", "with": "Twin"}]) == 0
    joined = load_style(derby)
    assert joined.piece("Twin").layers == ()
    gaps = []
    for size in joined.size_run.sizes:
        (backing,) = piece_backings(joined, "Counter", size, "left")
        assert backing.joined == ("Twin",)
        assert len(backing.outlines) == 1  # over the seam
        gaps.append(backing.outlines[0].bbox_mm[2] - backing.outlines[0].bbox_mm[0])
    assert gaps == sorted(gaps)  # no size tears it apart


def test_what_was_drawn_can_be_taken_away_again(derby):
    plain = load_style(derby)
    edits = [
        {"do": "split", "piece": "Counter", "line": [[560, 190], [560, 270]]},
        {"do": "remove", "piece": "Counter", "what": "split"},
        {"do": "drill", "piece": "Counter", "at": [560, 230]},
        {"do": "remove", "piece": "Counter", "what": "detail"},
    ]
    assert edit(derby, edits) == 0
    assert load_style(derby) == plain
