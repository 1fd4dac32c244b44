"""A half pattern is never laid or issued as if it were a piece of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.__main__ import main
from app.errors import HalfPatternError
from app.lay.job import LayJob, problem_of
from app.style.file import load_style, save_style
from app.style.pieces import findings
from geometry.edge_kinds import EdgeKind
from geometry.findings import Severity

COURT = Path(__file__).parents[3] / "sample_styles/court/court.style.json"


def half_vamp():
    """The court style with the vamp marked as half a pattern."""
    style = load_style(COURT)
    vamp = style.piece("Vamp")
    edges = (vamp.edges[0].model_copy(update={"kind": EdgeKind.CENTRE}), *vamp.edges[1:])
    half = vamp.model_copy(update={"edges": edges})
    return style.model_copy(
        update={"pieces": tuple(half if piece is vamp else piece for piece in style.pieces)}
    )


def test_two_halves_are_never_laid_as_a_left_and_a_right() -> None:
    style = half_vamp()
    with pytest.raises(HalfPatternError, match="Vamp: has a centre edge"):
        problem_of(LayJob(style, {style.size_run.base: 1}))


def test_the_draft_says_so_before_anybody_lays() -> None:
    style = half_vamp()
    found = [f for f in findings(style, [style.size_run.base]) if f.code == "HALF_PATTERN"]
    assert [(f.piece, f.severity) for f in found] == [("Vamp", Severity.ERROR)]
    assert "HALF_PATTERN" not in {f.code for f in findings(load_style(COURT), ["37"])}


@pytest.mark.parametrize(
    "words", [["lay", "--pairs", "37:1"], ["boards"], ["cost", "--pairs", "37:1", "--quick"]]
)
def test_commands_name_the_piece_and_the_remedy(words, tmp_path, capsys) -> None:
    path = tmp_path / "half.style.json"
    save_style(half_vamp(), path)
    out = [] if "--quick" in words else ["-o", str(tmp_path / "out")]
    assert main([words[0], str(path), *words[1:], *out]) == 2
    said = capsys.readouterr().err.strip().splitlines()[-1]
    assert "Vamp" in said and "half a pattern" in said and "unfold it" in said
    assert not (tmp_path / "out").exists()
