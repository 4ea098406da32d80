"""Many points at once, against the same formula written by hand in NumPy or worked point by point."""

import multiprocessing
import os
import threading

import numpy as np
import pytest
import sympy as sp

from kit.core.errors import KitError
from kit.core.model import Model, compiled, find
from kit.core.model.compiled import each_block, functions_of
from tests.core.model.small import blank, one


def tip(L: np.ndarray | float, h: np.ndarray | float) -> np.ndarray:
    """The clamped bar by hand, all else as in the fixture."""
    return np.asarray(50 * np.power(L, 3.0) / (3 * 12_000 * (40 * np.power(h, 3.0) / 12)))


@pytest.mark.parametrize(
    ("L", "h"),
    [
        (700.0, 30.0),
        (np.array(700.0), 25.0),
        (np.linspace(100, 2000, 7), 30.0),
        ([100, 200, 300], 30),
        (np.linspace(100, 2000, 5)[:, None], np.linspace(10, 100, 4)),
        (np.linspace(100, 2000, 3)[:, None], np.linspace(10, 100, 100_000)),
        (np.linspace(100, 2000, 100_000)[:, None], np.linspace(10, 100, 3)),
        (np.linspace(100, 2000, 40_001), np.array([30.0])),
        (np.array([]), 30.0),
        (np.empty((0, 3)), np.ones(3)),
        (np.linspace(100, 2000, 24).reshape(2, 3, 4), np.linspace(10, 100, 3)[:, None]),
        (np.linspace(100, 2000, 24).reshape(6, 2, 2), np.array([20.0, 30.0])),
    ],
)
def test_broadcasting(bar: Model, L: np.ndarray, h: np.ndarray) -> None:
    found = bar.compute({"length": L, "height": h}, ("tip",))["tip"]
    want = tip(np.asarray(L, dtype=float), np.asarray(h, dtype=float))
    assert isinstance(found, np.ndarray)
    assert found.shape == want.shape
    np.testing.assert_allclose(found, want, rtol=1e-13)


def test_wants(bar: Model) -> None:
    L = np.array([260.0, 261.0])
    found = bar.compute({"length": L}, ("screws", "second_moment", "length"))
    assert list(found) == ["screws", "second_moment", "length"]
    assert found["screws"].tolist() == [3, 4]  # 260/130 is 2 gaps, a hair more is 3
    assert found["second_moment"].tolist() == [90_000, 90_000]
    assert found["length"].tolist() == [260, 261]
    assert bar.compute({"length": L}, ()) == {}


def test_cases_by_choice(bar: Model) -> None:
    found = bar.compute({"end": np.array([0, 1, 0])}, ("tip",))["tip"]
    clamped, propped = 50 * 600**3 / (3 * 12_000 * 90_000), 7 * 50 * 600**3 / (768 * 12_000 * 90_000)
    np.testing.assert_allclose(found, [clamped, propped, clamped], rtol=1e-14)


def test_shapes_that_do_not_fit(bar: Model) -> None:
    with pytest.raises(KitError, match=r"arrays of shapes \(2,\) and \(3,\) do not fit together"):
        bar.compute({"length": np.ones(2), "height": np.ones(3)}, ("tip",))


@pytest.mark.parametrize(
    ("values", "want"), [({"lenght": 1.0}, "tip"), ({"length": 1.0}, "tipp"), ({"tip": 1.0}, "tip")]
)
def test_unknown_names(bar: Model, values: dict[str, float], want: str) -> None:
    with pytest.raises(KitError, match=r"test\.bar has no"):
        bar.compute(values, (want,))


def test_blocks_and_threads_change_no_bit(monkeypatch: pytest.MonkeyPatch, bar: Model) -> None:
    rng = np.random.default_rng(3)
    shape = (3, 50_001)
    values = {
        "length": rng.uniform(100, 2000, shape), "height": rng.uniform(10, 100, shape[1]),
        "push": rng.uniform(0, 500, (3, 1)), "end": rng.integers(0, 2, shape),
    }  # fmt: skip
    want = ("tip", "screws", "moment")
    monkeypatch.setattr(compiled, "_CORES", 2)
    threaded = bar.compute(values, want)
    monkeypatch.setattr(compiled, "_CORES", 1)
    serial = bar.compute(values, want)
    monkeypatch.setattr(compiled, "CHUNK", 10**9)
    whole = bar.compute(values, want)
    for name in want:
        assert threaded[name].tobytes() == whole[name].tobytes()
        assert serial[name].tobytes() == whole[name].tobytes()


def test_sums_keep_their_index_to_themselves() -> None:
    """What holds a sum's index is not shared with the world outside, though it occurs twice."""
    i = sp.Symbol("i", integer=True)
    m = one(
        lambda x: (
            sp.Sum(sp.exp(-((i * x) ** 2)), (i, 1, 3)) + sp.Sum((2 + i * x) ** 5 / sp.exp((i * x) ** 2), (i, 0, 2))
        )
    )
    x = np.array([0.5, 2.0, 3.0])
    by_hand = sum(np.exp(-((k * x) ** 2)) for k in (1, 2, 3)) + sum(
        (2 + k * x) ** 5 * np.exp(-((k * x) ** 2)) for k in (0, 1, 2)
    )
    np.testing.assert_allclose(m.compute({"x": x}, ("y",))["y"], by_hand, rtol=1e-13)
    assert [m.at(x=value).base["y"] for value in x] == pytest.approx(by_hand, rel=1e-13)


def test_many_threads_share_one_model() -> None:
    m = one(lambda x: sp.sin(x) ** 2 + sp.exp(-x))
    results: list[np.ndarray] = []
    x = np.linspace(0, 10, 100_000)
    ask = [threading.Thread(target=lambda: results.append(m.compute({"x": x}, ("y",))["y"])) for _ in range(4)]
    for thread in ask:
        thread.start()
    for thread in ask:
        thread.join()
    assert len(results) == 4
    for found in results:
        np.testing.assert_allclose(found, np.sin(x) ** 2 + np.exp(-x), rtol=1e-13)


# -- no value -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("expr", "x", "holds"),
    [
        (lambda x: sp.sqrt(x - 5), [1.0, 5.0, 9.0], [False, True, True]),
        (lambda x: 1 / x, [0.0, 2.0], [False, True]),
        (lambda x: x / x**2 - 1 / (2 * x), [0.0, 2.0], [False, True]),
        (lambda x: sp.log(x), [0.0, 1.0], [False, True]),
        (lambda x: (x - 5) ** sp.Rational(1, 3), [0.0, 6.0], [False, True]),
        (lambda x: sp.exp(100 * x), [10.0, 1.0], [False, True]),
        (lambda x: sp.acos(x), [2.0, 0.5], [False, True]),
    ],
)
def test_nan_where_there_is_no_value(expr: object, x: list[float], holds: list[bool]) -> None:
    m = one(expr)  # type: ignore[arg-type]
    assert np.isfinite(m.compute({"x": np.array(x)}, ("y",))["y"]).tolist() == holds
    assert not np.isinf(m.compute({"x": np.array(x)}, ("y",))["y"]).any()
    for number, has in zip(x, holds, strict=True):  # a plain number fares as an array of one
        assert bool(np.isfinite(m.compute({"x": number}, ("y",))["y"])) is has


def test_given_without_array_at_a_point_without_value() -> None:
    m = blank()
    a = m.given("a", "a", "0", (0, 1), "a")
    b = m.given("b", "b", "1", (0, 1), "b")
    m.result("y", "y", "")
    m.equals(b / a, "so")
    m.done()
    assert np.isnan(m.compute({"b": np.arange(3.0)}, ("y",))["y"]).all()


def test_branches_without_value_elsewhere() -> None:
    m = one(lambda x: sp.Piecewise((sp.sqrt(x - 5), x > 5), (1 / (6 - x), True)))
    found = m.compute({"x": np.array([2.0, 5.0, 6.0, 9.0])}, ("y",))["y"]
    np.testing.assert_allclose(found, [0.25, 1, 1, 2], rtol=1e-14)


@pytest.mark.parametrize(
    ("expr", "by_hand"),
    [
        (sp.ceiling, np.ceil),
        (sp.floor, np.floor),
        (lambda x: sp.Mod(x, 3), lambda x: np.mod(x, 3)),
        (lambda x: sp.Min(x, 4, 7 - x), lambda x: np.minimum(np.minimum(x, 4), 7 - x)),
        (lambda x: sp.Max(x - 3, 0), lambda x: np.maximum(x - 3, 0)),
        (lambda x: sp.Abs(x - 5), lambda x: np.abs(x - 5)),
        (lambda x: sp.sign(x - 5), lambda x: np.sign(x - 5)),
        (lambda x: sp.atan2(x - 5, x + 1), lambda x: np.arctan2(x - 5, x + 1)),
        (lambda x: (x + 1) ** -3, lambda x: 1 / (x + 1) ** 3),
        (lambda x: (x + 1) ** 6 + (x + 1) ** 5, lambda x: (x + 1) ** 6 + (x + 1) ** 5),
        (lambda x: (x - 5) ** 7, lambda x: (x - 5) ** 7),
        (lambda x: 2**x, lambda x: 2.0**x),
        (lambda x: sp.Piecewise((1, sp.And(x > 2, x < 4)), (sp.Piecewise((2, x < 6), (3, True)), True)),
         lambda x: np.where((x > 2) & (x < 4), 1, np.where(x < 6, 2, 3))),
    ],
)  # fmt: skip
def test_functions(expr: object, by_hand: object) -> None:
    m = one(expr)  # type: ignore[arg-type]
    x = np.linspace(0, 10, 101)
    want = by_hand(x)  # type: ignore[operator]
    np.testing.assert_allclose(m.compute({"x": x}, ("y",))["y"], want, rtol=1e-13, atol=1e-13)
    at_points = [m.at(x=number).base["y"] for number in x[::10]]
    np.testing.assert_allclose(at_points, want[::10], rtol=1e-13, atol=1e-13)


def test_the_same_given_twice_gives_the_same_function(bar: Model) -> None:
    bar.compute({}, ("tip",))
    made = dict(functions_of(bar)._arrays)
    bar.compute({"length": np.ones(3)}, ("tip",))
    assert functions_of(bar)._arrays == made


def test_error_function() -> None:
    """Abramowitz and Stegun, table 7.1, from memory: erf 0.5 = 0.5204998778, erf 1 = 0.8427007929."""
    model = blank()
    given = model.given("x", "x", "1", (0, 3), "argument")
    model.result("y", "y", "", "error function")
    model.equals(sp.erf(given), "definition")
    model.done()
    table = {0.5: 0.5204998778, 1.0: 0.8427007929}
    found = model.compute({"x": np.array(list(table))}, ("y",))["y"]
    np.testing.assert_allclose(found, list(table.values()), atol=5e-11, rtol=0)
    for at, value in table.items():
        assert model.at(x=at).base["y"] == pytest.approx(value, abs=5e-11)
    found_x = find(model.at(), "x", "y", 0.5204998778)
    assert found_x.how == "closed form"
    assert found_x.values == pytest.approx([0.5], abs=1e-9)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
@pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning")
def test_a_copy_of_a_process_that_has_used_its_cores_computes_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """A fork takes over no threads: a pool of them that it takes over never answers."""
    monkeypatch.setattr("kit.core.model.compiled._CORES", 2)
    each_block(abs, range(8))
    copy = multiprocessing.get_context("fork").Process(target=each_block, args=(abs, range(8)))
    copy.start()
    copy.join(60)
    copy.kill()
    copy.join()
    assert copy.exitcode == 0
