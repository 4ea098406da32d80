"""What all tests of the hood share."""

from math import inf

import pytest


@pytest.fixture(autouse=True)
def all_the_time_it_needs(monkeypatch: pytest.MonkeyPatch) -> None:
    """A certificate ends when it is proven, on however slow a machine."""
    monkeypatch.setattr("kit.subjects.hood.shape_build.CERTIFY_SECONDS", inf)
