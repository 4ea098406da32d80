"""Remembered stages: equal content gives the same object, other content is worked anew, and what is old is dropped."""

from dataclasses import dataclass

import numpy as np
import pytest

from kit.geometry.remembered import remembered


@dataclass(frozen=True)
class Sheet:
    """A thing by its content."""

    name: str
    corners: np.ndarray
    holes: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, eq=False)
class Scan:
    """A thing that is only like itself."""

    name: str


def test_only_what_differs_is_worked_anew() -> None:
    worked: list[str] = []

    @remembered(most=2)
    def area(sheet: Sheet, times: float = 1.0) -> list[float]:
        """Return an area."""
        worked.append(sheet.name)
        return [times * float(np.prod(np.ptp(sheet.corners, axis=0)))]

    corners = np.array([[0.0, 0.0], [3.0, 2.0]])
    first = area(Sheet("a", corners))
    assert area(Sheet("a", corners.copy())) is first
    assert area.knows(Sheet("a", corners))
    assert not area.knows(Sheet("a", corners, ((1.0, 1.0),)))
    assert area(Sheet("a", np.nextafter(corners, 9.0))) is not first, "the last bit counts"
    assert area(Sheet("a", corners), times=2.0) == [12.0]
    assert worked == ["a"] * 3
    assert area(Sheet("a", corners)) == first
    assert len(worked) == 4, "two answers are kept; the oldest went"


def test_what_is_only_like_itself_is_told_apart_and_errors_are_not_kept() -> None:
    calls: list[Scan] = []

    @remembered(most=4)
    def read(scan: Scan) -> str:
        calls.append(scan)
        if scan.name == "bad":
            raise ValueError(scan.name)
        return scan.name

    one, other, bad = Scan("a"), Scan("a"), Scan("bad")
    assert [read(one), read(one), read(other)] == ["a", "a", "a"]
    for _ in range(2):
        with pytest.raises(ValueError, match="bad"):
            read(bad)
    assert calls == [one, other, bad, bad]
