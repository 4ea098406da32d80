"""Stop readings against a block moved along a bench, bodies in contact, boards sawn cut by cut; the wall's table."""

from fractions import Fraction
from math import ceil, sqrt, tan

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.core.model import find
from kit.core.quantity import Display
from kit.core.uncertainty import budget
from kit.subjects import model
from kit.subjects.reading.wall_table import wall_rows

BLOCK, ERROR, CUTS = (model(f"reading.{name}") for name in ("block", "error", "cuts"))


# -- the block ------------------------------------------------------------------------------------------


def reached(way: str, B: float, s_0: float, s_1: float) -> list[int]:
    """Slide the block along the bench millimeter by millimeter; where its working face stands is the target."""
    found = []
    for cursor in range(int(s_0), int(s_1) + 1):
        ends = (cursor, cursor + B) if way == "direct" else (cursor - B, cursor)
        if ends[0] >= 0:
            found.append(int(ends[0]))
    return found


@pytest.mark.parametrize("B", [150.0, 400.0, 700.0])
def test_targets_by_sliding_the_block(B: float) -> None:
    v = BLOCK.at(block=B).base
    direct, over = (reached(way, B, v["scale_from"], v["scale_to"]) for way in ("direct", "over the block"))
    assert (min(direct), max(direct)) == (v["direct_from"], v["direct_to"])
    assert (min(over), max(over)) == (v["over_from"], v["over_to"])
    both = set(direct) & set(over)
    assert max(both) - min(both) == v["overlap"]


def test_turning_the_block_round_changes_the_reading_by_its_length() -> None:
    """Twice the same part: the readings differ by the block, whatever the part."""
    for target in (260, 611.5, 1090):
        direct, over = (BLOCK.at(target=target, way=way).base for way in ("direct", "over the block"))
        assert over["reading"] - direct["reading"] == pytest.approx(400)
        assert over["hand"] - direct["hand"] == pytest.approx(direct["hand_gain"])


def failing(**givens: str) -> list[str]:
    return [state.name for state in BLOCK.at(**givens).checks if not state.ok]


def test_a_block_longer_than_the_scale_is_told_in_one_sentence() -> None:
    case = BLOCK.at(block="1300 mm")
    (told,) = [state.words() for state in case.checks if state.name == "block"]
    assert told.startswith("the block is long 1300 mm, 50 mm more than the 1250 mm allowed; to mend it, ")
    assert case.base["overlap"] == -50


def test_short_parts_are_refused_for_what_they_lack() -> None:
    assert failing(target="60 mm") == ["held"]
    assert failing(target="200 mm", way="direct") == ["begins"]
    assert failing(target="1200 mm") == ["ends"]
    assert failing(target="60 mm", way="direct", knob="20 mm", scale_from="0 mm") == ["hand", "held"]
    assert failing(target="240 mm") == []


def test_shortest_safe_part_is_safe_and_nothing_shorter() -> None:
    for way, more in (
        ("direct", {}),
        ("over the block", {"block": "120 mm", "fence_gap": "0 mm", "held_least": "20 mm"}),
    ):
        least = BLOCK.at(way=way, **more).base["shortest"]
        assert not failing(way=way, target=f"{least} mm", **more)
        assert failing(way=way, target=f"{least - 0.1} mm", **more)


def test_the_safer_way_is_pointed_out() -> None:
    told = "The way over the block reaches this length too"
    assert any(text.startswith(told) for text in BLOCK.at(way="direct", target="500 mm").cautions)
    assert not any(text.startswith(told) for text in BLOCK.at(way="direct", target="1400 mm").cautions)


# -- the wall's table -----------------------------------------------------------------------------------


def test_wall_in_millimeters() -> None:
    rows = wall_rows(BLOCK.at(), "50 mm")
    assert [row.target for row in rows] == [50.0 * n for n in range(1, 31)]
    for row in rows:
        if row.target < 145:  # gap 25 and held 120 mm
            assert row.way is None
            assert "cut it from a longer piece" in row.why()
        elif row.target <= 1100:  # 1500 - 400; the hand is farther over the block
            assert (row.way, row.reading, row.hand) == ("over the block", row.target + 400, row.target + 340)
        else:
            assert (row.way, row.reading, row.hand) == ("direct", row.target, row.target + 60)


def test_wall_in_inch_fractions_does_not_drift() -> None:
    case = BLOCK.at(block="16 in", knob="2 in")
    rows = wall_rows(case, "1/16 in", "10 in", "40 in")
    assert len(rows) == 481
    for number, row in enumerate(rows):
        assert row.target == pytest.approx(float((160 + number) * Fraction(254, 160)), abs=1e-10)
    shown = rows[7].cells(Display(system="in", denominator=16))
    assert shown[:3] == ("10 7/16 in", "over the block", "26 7/16 in")


def test_wall_takes_the_way_with_the_farther_hand() -> None:
    """A knob beyond the block's middle is nearer to the blade over the block than direct."""
    rows = wall_rows(BLOCK.at(block="150 mm", knob="100 mm"), "100 mm", "300 mm", "900 mm")
    assert {row.way for row in rows} == {"direct"}


@pytest.mark.parametrize(
    ("givens", "step", "told"),
    [
        ({"block": "1300 mm"}, "50 mm", "the block is long 1300 mm"),
        ({}, "0 mm", "The step of the table is 0 mm; it must be above 0 mm."),
        ({}, "-5 mm", "must be above 0 mm"),
        ({}, "0.1 mm", "take a longer step"),
    ],
)
def test_a_table_that_cannot_be_gets_one_sentence(givens: dict[str, str], step: str, told: str) -> None:
    with pytest.raises(KitError) as caught:
        wall_rows(BLOCK.at(**givens), step)
    assert told in str(caught.value)


def test_a_table_of_another_model_is_refused() -> None:
    with pytest.raises(KitError, match=r"it takes a case of 'reading\.block'"):
        wall_rows(CUTS.at(), "50 mm")


# -- its errors -----------------------------------------------------------------------------------------


def pushed(v: dict[str, float]) -> float:
    """Push a square part along the fence until it meets the face or the dust; return how short it comes out.

    Bodies as points: the face from its foot to its far edge, leaning; the heap's toe at its foot, on the fence.
    """
    y = np.linspace(min(v["chamfer"], v["face_depth"], v["part_width"]), min(v["face_depth"], v["part_width"]), 4001)
    face = -(y - v["measured_at"]) * tan(v["lean"])  # plus: away from the blade
    loose = max(0.0, v["cuts"] * v["dust"] - v["chamfer"] ** 2 / 2)
    toe = face[0] - sqrt(2 * loose)
    return float(min(face.min(), toe))


@pytest.mark.parametrize("case", range(12))
def test_part_by_pushing_it_against_the_corner(case: int) -> None:
    rng = np.random.default_rng(case)
    v = dict(
        ERROR.at(
            way="direct", lean=rng.uniform(-2, 2), face_depth=rng.uniform(20, 200), part_width=rng.uniform(30, 300),
            measured_at=rng.uniform(0, 100), chamfer=rng.uniform(0, 8), dust=rng.uniform(0.01, 2),
            cuts=int(rng.integers(0, 60)),
        ).base
    )  # fmt: skip
    assert v["part_error"] == pytest.approx(pushed(v), abs=1e-9)


def test_a_part_over_a_block_that_is_not_its_number() -> None:
    """Set 240 over a block called 400 that is 400.08 long: the stop's face stands at 239.92."""
    v = ERROR.at(lean=0, cuts=0).base
    assert v["part_error"] == pytest.approx((240 + 400) - 400.08 - 240)
    assert ERROR.at(lean=0, cuts=0, way="direct").base["part_error"] == 0


def test_dust_counts_only_when_the_chamfer_is_full() -> None:
    full = int(ERROR.at().base["cuts_free"])
    assert ERROR.at(cuts=full).base["toe"] == 0
    assert ERROR.at(cuts=full + 1).base["toe"] > 0
    assert any("chamfer is full" in text for text in ERROR.at(cuts=full + 1).cautions)


# -- repeated cuts --------------------------------------------------------------------------------------


def sawn(S: float, L: float, k: float, trim: float, tail: float | None) -> tuple[int, int, float]:
    """Saw a board part by part in whole hundredths; return parts, cuts and what is left."""
    board, part, kerf, least = (round(100 * x) for x in (S - trim, L, k, tail or 0.0))
    parts = cuts = 0
    while True:
        if tail is None and board == part:
            return parts + 1, cuts, 0.0
        if board < part or (tail is not None and board - part - kerf < least):
            return parts, cuts, board / 100
        board = max(0, board - part - kerf)
        parts, cuts = parts + 1, cuts + 1


@pytest.mark.parametrize("case", range(40))
def test_boards_sawn_cut_by_cut(case: int) -> None:
    rng = np.random.default_rng(case)
    S, L, k = (round(float(rng.uniform(*span)), 2) for span in ((600, 6000), (20, 700), (0.5, 8)))
    trim, h = (round(float(rng.uniform(*span)), 2) for span in ((0, 100), (0, 400)))
    if case % 4 == 0:  # a board that fits to the hundredth
        S = round(trim + 7 * L + 6 * k, 2)
        h = 0.0
    for last, tail in (("tail is held", h), ("last piece is a part", None)):
        v = CUTS.at(stock=S, part=L, kerf=k, trim=trim, tail_least=h, last=last).base
        parts, cuts, left = sawn(S, L, k, trim, tail)
        assert (v["parts"], v["cuts"]) == (parts, cuts)
        assert v["offcut"] == pytest.approx(left, abs=1e-6)
        assert v["kerf_loss"] == pytest.approx(S - trim - parts * L - left, abs=1e-6)


def test_one_board_that_gives_them_all() -> None:
    for last in ("tail is held", "last piece is a part"):
        need = CUTS.at(last=last, wanted=12).base["stock_needed"]
        assert CUTS.at(last=last, wanted=12, stock=need).base["boards"] == 1
        assert CUTS.at(last=last, wanted=12, stock=need - 0.1).base["boards"] == 2
        longest = CUTS.at(last=last, wanted=12).base["longest"]
        assert CUTS.at(last=last, wanted=12, part=longest).base["parts"] == 12
        assert CUTS.at(last=last, wanted=12, part=longest + 0.1).base["parts"] == 11


def test_boards_by_sharing_out() -> None:
    v = CUTS.at(wanted=50).base
    assert v["boards"] == ceil(50 / v["parts"])


def test_stack_by_drawing_parts() -> None:
    v = CUTS.at().base
    count = round(v["wanted"])
    parts = v["part"] + v["bias"] + np.random.default_rng(1).normal(0, v["spread"], (100_000, count))
    stack = parts.sum(axis=1)
    assert stack.mean() - v["stack"] == pytest.approx(v["stack_bias"], abs=5e-3)
    assert stack.std() == pytest.approx(v["stack_u"], rel=1e-2)


def test_a_board_too_short_for_one_part_is_told() -> None:
    case = CUTS.at(stock="600 mm", part="500 mm")
    assert case.base["parts"] == 0
    assert case.base["offcut"] == pytest.approx(585)
    (told,) = [state.words() for state in case.checks if state.name == "stock"]
    assert told.endswith("to mend it, take a longer board: this one gives no part")


def test_longest_part_for_a_board_is_found() -> None:
    found = find(CUTS.at(wanted=9), "part", "stock_needed", "2400 mm")
    assert found.how == "closed form"
    assert found.values == pytest.approx([CUTS.at(wanted=9).base["longest"]])


def test_a_budget_can_be_made_with_and_without_dust() -> None:
    for cuts in (0, 10, 40):
        assert budget(ERROR.at(cuts=cuts), "part_error").u > 0
