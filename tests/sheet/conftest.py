"""The sheets of all models, written once, and the hostile texts that a user may type."""

import pytest

from kit import subjects
from kit.core.model import Case, Model, Stated
from kit.core.quantity import ValueOrigin
from kit.sheet.write import Origin, sheet
from tests.core.conftest import build

ORIGIN = Origin("Boat-shed cut-off bench", "a_part", "A part of the bench", "2026-05-01")

HOSTILE = """<script>alert("x")</script> & '"><img src=x onerror=alert(1)> ]]> --> </style> \\" 🪚 {{ 7*7 }}"""


@pytest.fixture(scope="session")
def stop() -> Case:
    return subjects.model("stop.deflection").at()


@pytest.fixture(scope="session")
def hostile_sheet(stop: Case) -> str:
    """A sheet on which everything that a user can type is hostile."""
    stated = Stated("700 ± 1 mm", origin=ValueOrigin("measured", *[HOSTILE] * 5))
    origin = Origin(HOSTILE, HOSTILE, HOSTILE, HOSTILE)
    return sheet(stop.with_(long_reach=stated), origin=origin)


@pytest.fixture(scope="session")
def bar() -> Model:
    """The small model of the core's own tests."""
    return build()
