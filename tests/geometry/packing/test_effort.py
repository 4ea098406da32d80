"""How much is done: moves counted, seconds kept by a clock that the test turns, reports and stops."""

import pytest

from kit.geometry.packing import effort as effort_module
from kit.geometry.packing.effort import Effort
from kit.geometry.packing.pack import pack
from kit.geometry.packing.stock import CutPart, Cutting, Roll, Stock, board
from tests.geometry.packing.orders import garment

TICK = 0.01  # seconds that pass whenever someone looks at the clock


class Clock:
    """A clock that goes on by a tick each time it is read."""

    def __init__(self) -> None:
        self.now = 0.0

    def monotonic(self) -> float:
        self.now += TICK
        return self.now


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Clock:
    found = Clock()
    monkeypatch.setattr(effort_module, "time", found)
    return found


def test_moves_are_counted_and_told() -> None:
    shares: list[float] = []

    def told(share: float, _words: str) -> bool:
        shares.append(share)
        return True

    watch = Effort(4, None, told)
    assert [watch.spend() for _ in range(4)] == [True, True, True, False]
    assert shares == [0.25, 0.5, 0.75, 1.0]
    assert watch.left == 0.0
    assert watch.on()


def test_seconds_that_are_kept_are_not_spent(clock: Clock) -> None:
    watch = Effort(10**9, 2.0)
    watch.keep(1.5)
    looks = 0
    while watch.on():
        looks += 1
    assert clock.now == pytest.approx(0.5, abs=5 * TICK)
    watch.keep(0.0)
    assert watch.closing()


def test_a_stop_leaves_little_time_to_close(clock: Clock) -> None:
    watch = Effort(10**9, 1000.0, lambda _share, _words: False)
    assert not watch.spend()
    assert not watch.on()
    begin = clock.now
    while watch.closing():
        pass
    assert clock.now - begin == pytest.approx(effort_module.LAST, abs=5 * TICK)


@pytest.mark.parametrize(
    ("parts", "stock"),
    [
        (garment(2, 40), Roll("stained", 1500, (garment(1, 1, scale=0.1)[0].outline,))),
        (garment(2, 40, scale=0.5), (board("board", 1500, 900, 3),)),
    ],
)
@pytest.mark.parametrize("seconds", [0.05, 1.0, 5.0])
def test_all_stages_end_when_the_time_is_over(
    clock: Clock, parts: tuple[CutPart, ...], stock: Stock, seconds: float
) -> None:
    """Wherever the time runs out — first layout, search, sliding — at most two ticks a part pass after it."""
    layout = pack(parts, stock, Cutting(5, 3), effort=10**7, seconds=seconds)
    assert clock.now <= seconds + 2 * TICK * 40
    if isinstance(stock, Roll):
        assert layout.missing == 0
