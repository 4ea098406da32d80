"""What the pages say where work can hurt: kickback, tilted blades, small pieces, dust, hoses, tipping."""

import pytest
import sympy as sp

from kit.subjects import model, names
from kit.subjects.safety import CARRIER, HOSE, KICKBACK, SMALL, TILTED

TILTS = ("bevel.frame", "bevel.corner", "bevel.hood", "bevel.gap", "bevel.wall", "bevel.setting", "hood.shape")
HOSES = {"hood.air": "diameter", "cloth.chute": "hose"}


@pytest.mark.parametrize("name", names())
def test_no_end_is_sent_on_edge_against_a_fence_by_hand(name: str) -> None:
    said = model(name)
    for text in (*(limit.mend for limit in said.limits.values()), *(caution.text for caution in said.cautions)):
        assert "tall fence" not in text
        assert "fence" not in text or "on edge" not in text or "carrier" in text


@pytest.mark.parametrize("name", ["bevel.frame", "bevel.corner", "bevel.hood", "hood.shape"])
def test_ends_beyond_the_saw_ride_in_a_carrier(name: str) -> None:
    assert model(name).limits["tilt"].mend.endswith(CARRIER)
    assert "clamped" in CARRIER


@pytest.mark.parametrize("name", TILTS)
def test_sawing_tells_of_kickback_the_tilted_blade_and_small_pieces(name: str) -> None:
    always = [caution.text for caution in model(name).cautions if caution.when is sp.true]
    for text in (KICKBACK, TILTED, SMALL):
        assert text in always
    assert "leans away from" in TILTED


@pytest.mark.parametrize("name", HOSES)
def test_a_hose_tells_of_fire_metal_charge_and_blocking(name: str) -> None:
    said = " ".join(model(name).at().cautions)
    for text in HOSE:
        assert text in said
    for word in ("explodes", "metal", "charge up", "blocked"):
        assert word in said


@pytest.mark.parametrize("name", HOSES)
def test_a_piece_longer_than_half_the_hose_needs_a_drop_box(name: str) -> None:
    """Common practice, no source: half of the hose."""
    page, hose = model(name), HOSES[name]

    def held(offcut: str, box: str = "none") -> bool:
        case = page.at(**{hose: "100 mm", "offcut": offcut, "drop_box": box})
        return next(check for check in case.checks if check.name == "offcut").ok

    assert held("50 mm")
    assert not held("51 mm")
    assert held("300 mm", "drop box first")


def test_tipping_keeps_a_factor() -> None:
    """Common practice, no source: one and a half times the hardest push."""
    page = model("level.tripod")
    tips = page.at()["tip"].base
    for part, holds in ((0.66, True), (0.68, False)):
        case = page.at(push=f"{part * tips:.6f} N")
        assert next(check for check in case.checks if check.name == "stands").ok is holds
        assert any("bolted down" in text for text in case.cautions) is not holds
