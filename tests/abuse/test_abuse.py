"""A small draw of the abuse in every run of the tests; all of it: python -m tests.abuse."""

import sys

import pytest

from tests.abuse.__main__ import KINDS, tried

DRAWS = {"broken jobs": 40, "broken jobs, built": 4, "broken meshes": 25, "broken tables": 25, "changed by hand": 8}


@pytest.mark.skipif(sys.platform == "win32", reason="pipes, links and limits are those of POSIX")
@pytest.mark.parametrize("kind", KINDS)
def test_nothing_happens_that_must_not(kind: str) -> None:
    for number in range(DRAWS.get(kind, 1)):
        outcome = tried(kind, 2, number)
        assert not outcome.startswith("WRONG"), f"{kind}, seed 2, number {number}:\n{outcome}"
