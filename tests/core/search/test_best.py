"""The best design against dense grids of five models, what binds, sizes that can be bought, fronts, bad questions."""

import numpy as np
import pytest

from kit import best, front, model
from kit.core.errors import KitError
from kit.core.model.grid import grid, least_chance
from kit.core.model.margins import drawn_together
from kit.core.search import SIZES, Vary, sizes, wish_of, wishes
from kit.core.search.best_design import searched
from kit.core.search.space import Judge, Space
from kit.core.search.watch import StoppedError
from kit.core.tables import table
from kit.core.uncertainty import sensitivity

FIVE = {
    "stop.deflection": ("least section", "rib_height", "block_width"),
    "support.shelf": ("least weight", "thickness", "lip_height"),
    "hood.shape": ("most open front", "brow_width", "brow_height"),
    "cloth.chute": ("least cloth", "height", "offset_x"),
    "cutting.boards": ("least cost", "piece_length", "wanted"),
}
LEVEL = 0.9


@pytest.mark.parametrize("name", FIVE)
def test_nothing_on_a_dense_grid_is_better(name: str) -> None:
    text, across, up = FIVE[name]
    case = model(name).at()
    wish = wish_of(case.model, text)
    made = grid(case, across, up, wish.of, points=101)
    worth = np.where(least_chance(case, made) >= LEVEL, made.result if wish.least else -made.result, np.inf)
    least = float(np.nanmin(worth))
    assert np.isfinite(least), "the grid has a design that holds"
    space = Space(case, [across, up])
    judge = Judge(space, wish, LEVEL)
    point = searched(judge, [])
    found = space.at(case, space.base(point))
    value = found.base[wish.of] * (1 if wish.least else -1)
    assert value <= least + 1e-6 * abs(least)
    assert judge(point[None, :]).lack[0] == 0


def test_what_is_found_holds_by_draws_and_says_what_binds() -> None:
    case = model("stop.deflection").at()
    found = best(case, "least section", ["rib_height"], level=0.95)
    assert found.held
    assert found.chance == drawn_together(found.case) >= 0.95
    assert drawn_together(found.case) < 0.96, "no more wood than the chance asks for"
    # a lower rib bends more: the tip binds, and a tenth more of it would save wood; the rib fits with room to spare
    assert found.binding[0].limit == "tip"
    assert found.binding[0].value < found.value
    assert "rib_fits" not in [each.limit for each in found.binding]
    again = best(case, "least section", ["rib_height"], level=0.95)
    assert again.case.base == found.case.base


def test_sizes_can_be_bought() -> None:
    case = model("stop.deflection").at()
    kept = {row.entry("thickness").base for row in table("stock_thicknesses")}
    found = best(case, "least section", [Vary("block_width", "boards and panels"), "rib_height"], what_binds=False)
    assert min(abs(found.case.base["block_width"] - size) for size in kept) < 1e-9
    inches = sizes(case.model.free["rib_height"], "sixteenths of an inch")
    assert inches[1] - inches[0] == pytest.approx(25.4 / 16)
    assert sizes(model("cutting.boards").free["wanted"], SIZES[0])[:2] == (1.0, 2.0)


def test_rows_of_a_table_vary_with_the_rest() -> None:
    case = model("stop.deflection").at()
    wish = wish_of(case.model, "least tip movement")
    woods = {}
    for wood in case.table("woods").ids:
        try:
            tried = case.with_(block_wood=wood)
        except KitError:  # a wood without the figures that are needed
            continue
        woods[wood] = tried
    best_wood = min(woods, key=lambda wood: woods[wood].base[wish.of])
    found = best(case, wish, ["block_wood"], level=0.5, what_binds=False)
    assert found.case.picks["block_wood"] == best_wood
    assert found.case.base == pytest.approx(woods[best_wood].base)
    # how sure a limit is goes by the row's own uncertainty
    space = Space(case, ["block_wood"])
    assert len(space.rows["block_wood"]) == len(woods)
    points = np.array([space.point(each) for each in woods.values()])
    chances = Judge(space, wish, LEVEL)(points).chance
    alone = [Judge(Space(each, ["rib_height"]), wish, LEVEL) for each in woods.values()]
    expected = [judge(judge.space.point(judge.space.case)[None, :]).chance[0] for judge in alone]
    assert chances == pytest.approx(expected, abs=1e-9)
    # a row and a size together, and not a row with what it fills
    both = best(case, "least section", ["block_wood", "rib_height"], level=LEVEL, what_binds=False)
    assert both.value <= best(case, "least section", ["rib_height"], level=LEVEL, what_binds=False).value + 1e-6
    with pytest.raises(KitError, match="comes from the row of block_wood"):
        best(case, wish, ["block_wood", "block_modulus"])


def test_a_front_gives_up_one_wish_for_the_other() -> None:
    case = model("stop.deflection").at()
    cases = front(case, ("least section", "most reach"), ["rib_height", "long_reach"], level=0.9)
    area, reach = ([each.base[name] for each in cases] for name in ("area", "long_reach"))
    assert len(cases) >= 5
    assert area == sorted(area)
    assert reach == sorted(reach)
    assert all(drawn_together(each) >= 0.9 for each in cases)


def test_wishes_are_the_models_and_the_jobs_and_any_result() -> None:
    stop = model("stop.deflection")
    words = [wish.words for wish in wishes(stop, ["most holding_force"])]
    assert words[:4] == ["least tip movement", "least section", "most reach", "most push at which the clamp slides"]
    assert "least tip movement from shear" in words
    for text, said in (("some wood", "least or most"), ("least tip_eror", "tip_error")):
        with pytest.raises(KitError, match=said):
            wish_of(stop, text)


def test_who_waits_is_told_and_ends_a_search() -> None:
    case, told = model("stop.deflection").at(), list[str]()

    def two_looks(words: str) -> bool:
        told.append(words)
        return len(told) < 3

    with pytest.raises(StoppedError):
        best(case, "least section", ["rib_height"], watch=two_looks)
    assert told == ["looking for the least section"] * 3
    with pytest.raises(StoppedError):
        front(case, ("least section", "most reach"), ["rib_height"], watch=lambda _: False)
    with pytest.raises(KitError, match="stopped"):
        sensitivity(case, "tip_error", watch=lambda _: False)


def test_bad_questions_get_a_sentence() -> None:
    case = model("stop.deflection").at()
    for vary, said in (
        ([], "nothing may vary"),
        (["long_raech"], "long_reach"),
        (["push", "push"], "twice"),
        ([Vary("push", ends=(20.0, 20.0))], "has no width"),
        ([Vary("block_width", "drills", ends=(191.0, 199.0))], "no size of block_width"),
        ([Vary("friction", "drills")], "has no sizes 'drills'"),
    ):
        with pytest.raises(KitError, match=said):
            best(case, "least section", vary)
    with pytest.raises(KitError, match="chance of 0"):
        best(case, "least section", ["push"], level=0.3)
    with pytest.raises(KitError, match="both wishes are least section"):
        front(case, ("least section", "least section"), ["push"])
    # the block slides at any rib's height: the nearest is named
    found = best(case.with_(push="400 N"), "least section", ["rib_height"])
    assert not found.held
    assert "this comes nearest" in repr(found)
    with pytest.raises(KitError, match="no design holds with a chance of 95 %"):
        front(case.with_(push="400 N"), ("least section", "most reach"), ["rib_height"])
