"""Hold of a style: sections by what lies behind the line, cards against strips, lays, other cloths."""

import json
from pathlib import Path

import pytest

from app.cost.per_pair import net_m2_per_pair
from app.errors import UsageError
from app.hold.cloth_choice import compare
from app.hold.materials import known_cloth, known_upper
from app.hold.on_lay import hold_notes, lay_hold, record_hold, why_not_judged
from app.hold.verdicts import span, style_hold
from app.style.file import load_style
from app.style.model import HoldChain, HoldLine, LayerData, SheetConstants, StretchReading, UpperMaterial
from app.words import in_language, told
from geometry.errors import SheetError
from geometry.stretch.sheet import Sheet, apparent_n_per_mm

FOLDER = Path(__file__).parents[3] / "sample_styles"
TWILL = SheetConstants(e1_n_per_mm=40, e2_n_per_mm=16, g12_n_per_mm=1.2, nu12=0.2, source="example")
NAPPA = SheetConstants(e1_n_per_mm=12, e2_n_per_mm=8, g12_n_per_mm=4, nu12=0.4, source="example")


def sample(name="court", **more):
    return load_style(FOLDER / name / f"{name}.style.json").model_copy(update=more)


def by_constants(style):
    """The style with constants instead of strips, so that figures are exact."""
    first = style.cloths[0].model_copy(update={"tests": (), "sheet": TWILL})
    upper = UpperMaterial(name="nappa", sheet=NAPPA)
    return style.model_copy(update={"cloths": (first, *style.cloths[1:]), "upper_material": upper})


def with_piece(style, name, **fields):
    pieces = tuple(p.model_copy(update=fields) if p.name == name else p for p in style.pieces)
    return style.model_copy(update={"pieces": pieces})


def held(style, name, **more):
    return next(p for p in style_hold(style, **more).pieces if p.piece == name)


def test_a_fully_backed_quarter_gives_what_the_two_sheets_give():
    piece = held(by_constants(sample()), "Quarter outer")
    assert piece.hold.distance_mm == pytest.approx(146.0)
    assert piece.hold.upper_mm == pytest.approx(146 / 12)
    assert [s.layers for s in piece.sections] == [(0,)]
    assert piece.hold.high_mm == pytest.approx(146 * 0.0191459, rel=1e-4)
    assert piece.hold.low_mm == pytest.approx(piece.hold.high_mm)


def test_what_lies_bare_gives_as_the_upper_alone():
    piece = held(by_constants(sample()), "Vamp")
    bare, backed = piece.sections
    assert bare.layers == () and backed.layers == (0,)
    assert bare.length_mm + backed.length_mm == pytest.approx(62.0)
    assert piece.hold.high_mm == pytest.approx(bare.length_mm / 12 + backed.length_mm * 0.0191459, rel=1e-4)


def test_a_piece_without_backing_gives_as_the_upper_alone():
    piece = held(with_piece(by_constants(sample()), "Vamp", layers=()), "Vamp")
    assert piece.angle_deg is None and piece.granted_deg is None
    assert piece.hold.high_mm == pytest.approx(62 / 12)
    assert piece.hold.holds is False


def test_a_second_layer_counts_where_it_lies():
    piece = held(sample("sandal"), "Ankle strap")
    assert [s.layers for s in piece.sections] == [(0,), (0, 1), (0,)]
    one = with_piece(sample("sandal"), "Ankle strap", layers=(LayerData(),))
    assert piece.hold.high_mm < held(one, "Ankle strap").hold.low_mm


def test_turned_by_90_degrees_the_samples_break_their_limits():
    for name in ("court", "derby", "boot"):
        style = sample(name)
        limited = {p.name for p in style.pieces if p.hold_line and p.hold_line.limit_mm}
        limited |= {chain.name for chain in style.hold_chains}
        straight, across = style_hold(style), style_hold(style, turn_deg=90.0)
        assert straight.failing == ()
        assert {each.called for each in across.failing} == limited
        assert "HOLD_BROKEN" in {f.code for f in across.findings}


def test_the_worked_example_of_the_docs():
    style = sample()
    straight, across = style_hold(style), style_hold(style, turn_deg=90.0)
    shown = [
        (span(a.hold), span(b.hold), a.granted_deg)
        for a, b in zip(straight.pieces, across.pieces, strict=True)
    ]
    assert shown == [("1.6-1.7", "2.5-2.6", 12.5), ("2.7-2.8", "5.1-5.4", 10.5), ("2.7-2.9", "5.1-5.3", 10.0)]
    text = (FOLDER.parent / "docs/hold.md").read_text(encoding="utf-8")
    for backed, turned, granted in shown:
        assert f"| {backed} mm | {turned} mm, breaks |" in text and f"| {granted:g} deg |" in text


def test_a_card_with_the_wrong_tight_direction_is_found_out_by_its_strips():
    style = sample()
    wrong = style.cloths[0].model_copy(update={"tight_direction_deg": 90.0})
    turned = style.model_copy(update={"cloths": (wrong, *style.cloths[1:])})
    result = style_hold(turned)
    assert "TIGHT_DIRECTION_WRONG" in {f.code for f in result.findings}
    assert len(result.failing) == 5  # three pieces, two chains
    as_turned = style_hold(style, turn_deg=-90.0)
    assert [p.hold.high_mm for p in result.pieces] == pytest.approx(
        [p.hold.high_mm for p in as_turned.pieces]
    )


def test_a_turn_tolerance_wider_than_the_limits_allow_is_remarked():
    style = sample()
    granted = style_hold(style).granted_deg
    assert granted is not None and 5 < granted < 20
    wide = style.model_copy(update={"rules": style.rules.model_copy(update={"turn_tolerance_deg": 30.0})})
    remarked = {f.piece for f in style_hold(wide).findings if f.code == "TOLERANCE_TOO_WIDE"}
    assert remarked == {"Vamp", "Quarter outer", "Quarter inner"}
    assert style_hold(style, turn_deg=90.0).granted_deg is None


def test_constants_whose_axis_1_is_not_the_tight_direction_are_called_out():
    style = by_constants(sample())
    swapped = TWILL.model_copy(update={"e1_n_per_mm": 16.0, "e2_n_per_mm": 40.0, "nu12": 0.08})
    cloth = style.cloths[0].model_copy(update={"sheet": swapped})
    result = style_hold(style.model_copy(update={"cloths": (cloth, *style.cloths[1:])}))
    assert "TIGHT_DIRECTION_WRONG" in {f.code for f in result.findings}
    assert len(result.failing) == 5  # three pieces, two chains
    impossible = style.cloths[0].model_copy(update={"sheet": TWILL.model_copy(update={"nu12": 3.0})})
    with pytest.raises(SheetError, match="Cotton twill"):
        known_cloth(impossible, 1.0)


def test_the_worse_hand_counts_where_upper_and_cloth_are_both_slanted():
    """Cloth is not mirrored with the piece: slants that agree on one hand oppose on the other."""
    readings = tuple(
        StretchReading(
            angle_deg=a, width_mm=25, gauge_mm=100, loads_n=(25.0,),
            extensions_mm=(100 / apparent_n_per_mm(Sheet(12, 6, 3, 0.3), 20 - a),),
        )
        for a in range(0, 180, 30)
    )  # fmt: skip
    style = by_constants(sample()).model_copy(
        update={"upper_material": UpperMaterial(name="hide", tests=readings)}
    )
    high = [held(style, "Quarter outer", turn_deg=turn).hold.high_mm for turn in (12.0, -12.0)]
    assert high[0] == pytest.approx(high[1], rel=1e-6)
    straight = held(style, "Quarter outer").hold.high_mm
    assert high[0] > straight


def test_in_another_size_distance_and_limit_go_with_the_last():
    style = sample()
    base, large = held(style, "Quarter outer"), held(style, "Quarter outer", size="41")
    assert large.hold.distance_mm == pytest.approx(base.hold.distance_mm * 41 / 37)
    assert large.hold.limit_mm == pytest.approx(base.hold.limit_mm * 41 / 37)
    assert large.hold.holds is base.hold.holds is True
    with pytest.raises(UsageError, match="size 99"):
        style_hold(style, size="99")


def test_lines_off_the_axis_or_off_the_piece_are_remarked():
    style = sample()
    line = style.piece("Quarter outer").hold_line
    (x0, y0), (x1, y1) = line.from_mm, line.to_mm
    odd = with_piece(
        style, "Quarter outer", hold_line=HoldLine(from_mm=(x0, y0 - 20), to_mm=(x0 + 40, y0 + 20))
    )
    assert "HOLD_LINE_SLANTED" in {f.code for f in held(odd, "Quarter outer").findings}
    far = with_piece(style, "Quarter outer", hold_line=HoldLine(from_mm=(x0, y0), to_mm=(x1 + 30, y1)))
    assert "HOLD_LINE_OUTSIDE" in {f.code for f in held(far, "Quarter outer").findings}
    none = with_piece(style, "Quarter outer", hold_line=HoldLine(from_mm=(x0, y0), to_mm=(x0, y0)))
    with pytest.raises(SheetError, match="Quarter outer"):
        style_hold(none)


def test_without_a_line_only_shares_are_told():
    piece = held(with_piece(sample(), "Vamp", hold_line=None), "Vamp")
    assert not piece.has_line and piece.hold.limit_mm is None


def test_unknown_stretch_is_said_and_never_guessed():
    style = sample()
    with pytest.raises(UsageError, match="upper material is not known"):
        known_upper(UpperMaterial(), 1.0)
    bare = style.cloths[0].model_copy(update={"tests": (), "sheet": None})
    with pytest.raises(UsageError, match=r"Cotton twill.*is not known"):
        known_cloth(bare, 1.0)
    with pytest.raises(UsageError, match="no cloth"):
        style_hold(style.model_copy(update={"cloths": ()}))


def test_tests_that_are_refused_leave_the_constants_and_say_so():
    one = StretchReading(angle_deg=0, width_mm=25, gauge_mm=100, loads_n=(25.0,), extensions_mm=(2.5,))
    cloth = sample().cloths[0].model_copy(update={"tests": (one,)})
    known = known_cloth(cloth, 1.0)
    assert {f.code for f in known.findings} == {"TESTS_REFUSED"}
    with pytest.raises(SheetError, match=r"Cotton twill.*one angle only"):
        known_cloth(cloth.model_copy(update={"sheet": None}), 1.0)


def a_lay(*placements):
    return {
        "roll": {"tight_direction_deg": 0.0},
        "placements": [
            {"piece": piece, "size": "37", "hand": hand, "pull_axis_deg": axis}
            for piece, hand, axis in placements
        ],
    }


def test_a_placed_piece_turned_off_is_told_with_what_it_costs():
    style = sample()
    lay = a_lay(("Vamp", "left", 0.0), ("Vamp", "left", 6.0), ("Vamp", "left", 6.0), ("Vamp", "right", -20.0))
    worst, mild = lay_hold(style, lay)
    assert (worst.hand, worst.count, worst.off_deg) == ("right", 1, 20.0)
    assert (mild.hand, mild.count, mild.off_deg) == ("left", 2, 6.0)
    assert 0 < mild.extra_mm < worst.extra_mm
    assert not mild.breaks
    assert "turned 6.0 deg off the tight direction, +0." in str(mild)


def test_a_lay_straight_and_within_limits_has_nothing_to_tell():
    assert lay_hold(sample(), a_lay(("Vamp", "left", 0.0), ("Quarter outer", "right", 0.0))) == ()
    unknown = sample(upper_material=UpperMaterial())
    assert lay_hold(unknown, a_lay(("Vamp", "left", 45.0))) == ()


def test_a_straight_lay_of_a_style_that_fails_is_told():
    style = sample()
    wrong = style.cloths[0].model_copy(update={"tight_direction_deg": 90.0})
    turned = style.model_copy(update={"cloths": (wrong, *style.cloths[1:])})
    lay = a_lay(("Vamp", "left", 90.0)) | {"roll": {"tight_direction_deg": 90.0}}
    (found,) = lay_hold(turned, lay)
    assert found.breaks and found.off_deg == 0.0 and found.extra_mm == 0.0


def test_what_a_lay_costs_goes_on_record_with_the_reason():
    style = sample()
    lay = a_lay(("Court C12 Vamp", "left", 40.0))
    (found,) = record_hold([style, sample("derby")], lay, "only a trial")
    assert found.breaks and lay["hold"]["broken"]
    notes = hold_notes(lay)
    assert notes[0].startswith("Hold: Court C12 Vamp 37 left (1 in the lay): turned 40.0 deg")
    assert notes[-1] == "Written despite this, because: only a trial"
    with in_language("it", {"turned {0} deg off the tight direction, {1} mm": "girato di {0}, {1} mm"}.get):
        read = hold_notes(json.loads(json.dumps(lay)))[0]
        assert "girato di 40,0, " in told(read), "also of a lay read from its file"
    straight = a_lay(("Vamp", "left", 0.0))
    assert record_hold([style], straight) == () and "hold" not in straight and hold_notes(straight) == ()


def test_limits_that_could_not_be_judged_are_said_and_not_passed_over():
    unknown = sample(upper_material=UpperMaterial())
    lay = a_lay(("Vamp", "left", 0.0))
    assert record_hold([unknown], lay) == ()
    (note,) = hold_notes(lay)
    assert note.startswith("Hold NOT JUDGED, Court C12") and "upper material is not known" in note
    free = unknown.model_copy(
        update={
            "pieces": tuple(p.model_copy(update={"hold_line": None}) for p in unknown.pieces),
            "hold_chains": (),
        }
    )
    assert why_not_judged(free) == ""


def test_other_cloths_are_compared_for_the_same_limits_with_their_cost():
    style = sample()
    tight, loose = compare(style, style.cloths)
    assert tight.holds is True and loose.holds is False
    assert loose.cost_per_pair < tight.cost_per_pair
    price_m2 = float(style.cloths[0].price_per_m) / (style.cloths[0].usable_width_mm / 1000)
    assert tight.cost_per_pair == pytest.approx(price_m2 * tight.net_m2_per_pair)
    assert tight.net_m2_per_pair == pytest.approx(net_m2_per_pair(style, ["37"], "twill-150")["37"])
    assert loose.worst.called.endswith("side")


def side(style, turn=0.0, name="Outer side"):
    return next(c for c in style_hold(style, turn_deg=turn).chains if c.name == name)


def test_what_pieces_give_one_after_another_adds_up_between_heel_and_throat():
    style = by_constants(sample())
    chain, vamp, quarter = side(style), held(style, "Vamp"), held(style, "Quarter outer")
    assert chain.hold.distance_mm == pytest.approx(146 + 62)
    assert chain.hold.upper_mm == pytest.approx((146 + 62) / 12)
    assert chain.hold.high_mm == pytest.approx(vamp.hold.high_mm + quarter.hold.high_mm)
    assert chain.hold.holds is True
    across = side(style, 90.0)
    assert across.hold.holds is False
    assert "Outer side" in {each.called for each in style_hold(style, turn_deg=90.0).failing}


def test_a_chain_is_more_than_its_links():
    """Each piece keeps its own limit at 9 degrees off, their sum does not: the lay may turn less."""
    style = sample()
    chain = side(style)
    assert chain.granted_deg < min(p.granted_deg for p in chain.parts)
    assert style_hold(style).granted_deg == chain.granted_deg
    turned = chain.with_turns({"Quarter outer": 9.0, "Vamp": 9.0})
    assert turned.holds is not True
    assert turned.best_mm > chain.with_turns({"Quarter outer": 9.0}).best_mm > chain.hold.best_mm


def test_a_chain_breaks_a_lay_in_which_every_piece_keeps_its_own_limit():
    lines = ("Vamp", "left", 10.0), ("Quarter outer", "left", -10.0)
    chain = HoldChain(name="Outer side", pieces=("Quarter outer", "Vamp"), limit_mm=4.5)
    found = lay_hold(sample(hold_chains=(chain,)), a_lay(*lines))
    broken = [placed for placed in found if placed.breaks]
    assert {placed.piece for placed in broken} == {"Outer side"}
    assert "chain Outer side 37 left (Quarter outer + Vamp): turned 10.0 deg" in str(broken[0])
    free = sample().model_copy(update={"hold_chains": ()})
    assert not any(placed.breaks for placed in lay_hold(free, a_lay(*lines)))


def test_a_chain_with_a_piece_without_a_line_is_not_judged_and_says_so():
    result = style_hold(with_piece(sample(), "Vamp", hold_line=None))
    assert result.chains == ()
    unjudged = [f for f in result.findings if f.code == "CHAIN_WITHOUT_LINE"]
    assert {f.piece for f in unjudged} == {"Vamp"} and len(unjudged) == 2
