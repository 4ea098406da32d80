"""Places where all limits once held though the answer could not be: each is now told by the limit named."""

import pytest

from kit.subjects import model

PLACES = {
    # bend of sheet outside the range of DIN 6935's factor: an allowance of -0.97 mm, a strain of -1088 %
    "din allowance": ("fold.bend", {"method": "DIN 6935", "thickness": 6, "inside_radius": 0.1}, "factor_holds"),
    "din strain": ("fold.strain", {"method": "DIN 6935", "thickness": 6, "inside_radius": 0.1}, "factor_holds"),
    "din chain": ("fold.chain", {"method": "DIN 6935", "thickness": 3, "inside_radius": 1.9}, "factor_holds"),
    # hems of both ends that meet: -55.7 mm between them
    "hem": ("fold.hem", {"cut_length": 60, "hem_width": 40, "turn_in": 38}, "keeps"),
    # an outline so narrow that nothing is left of its template: -18 mm
    "template": (
        "groove.template",
        {"work": "outline", "length": 20, "running": 50, "bit": 12, "bore": 40, "corner": 60},
        "round",
    ),
    "bush": ("groove.template", {"bore": 10, "bit": 12}, "bore"),
    # parts exchanged: a scale error of -2000 mm/m
    "scale": ("scale.calibration", {"part_1": 1100.5, "part_2": 300.25}, "believable"),
    "shorter than the zero error": (
        "scale.calibration",
        {"target": 10, "part_1": 330.0, "part_2": 1130.0},
        "reading",
    ),
    # a flow at which the fan of 1900 Pa has no such pressure left: 4937 Pa
    "fan": ("hood.air", {"known": "measured flow", "measured_flow": 1500}, "fan"),
    "pile": ("groove.depth", {"pile_light": 0.5, "pile_firm": 0.1, "rod": 3, "rod_force": 100}, "pile"),
    "paper": ("groove.depth", {"wanted": 0.5, "blocks": 0, "pile_light": 0, "pile_firm": 0, "paper": 1}, "cut"),
    "stack pressed": ("level.cards", {"stack_pressed": 3}, "stack"),
    "jaws": ("level.cards", {"stack": 0.2, "stack_pressed": 0.1, "zero": 0.5}, "zero"),
    "falls over": ("level.feet", {"length": 100, "depth": 100, "center_x": 45, "center_y": 45}, "upright"),
    "thin teeth": ("scale.zero", {"new_kerf": 2, "new_plate": 2.2}, "new_teeth"),
    "cup": ("stop.warp", {"width": 300, "front_thickness": 4, "back_thickness": 4, "front_moisture": 20}, "shallow"),
    "skin's tail": ("cloth.skin", {"tail": 10}, "tail"),
    "skin's rail": ("cloth.skin", {"rail_thickness": 20, "edge_radius": 12}, "edge"),
    "skin's hem": ("cloth.skin", {"hem_width": 5, "cloth_thickness": 2}, "hem"),
    "skin within its hem": ("cloth.skin", {"panel_width": 50, "hem_width": 40}, "keeps"),
}


@pytest.mark.parametrize("place", PLACES)
def test_the_limit_tells(place: str) -> None:
    name, given, limit = PLACES[place]
    failing = {check.name: check for check in model(name).at(**given).checks if not check.ok}
    assert limit in failing
    assert "; to mend it, " in failing[limit].words()


@pytest.mark.parametrize("place", PLACES)
def test_as_stated_that_limit_holds(place: str) -> None:
    name, _, limit = PLACES[place]
    assert next(check for check in model(name).at().checks if check.name == limit).ok


def test_a_part_too_long_for_its_board_is_none_long() -> None:
    """Kerfs and tail take the whole board: no length below nothing is printed."""
    case = model("reading.cuts").at(stock=600, wanted=200, kerf=3.3)
    assert case["longest"].value == 0.0
