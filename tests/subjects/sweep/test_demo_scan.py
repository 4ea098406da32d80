"""The demo scans: made again byte for byte, and brought by their recipe to the machine that made them."""

import importlib.util
from types import ModuleType

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.geometry.mesh import Prepared, moving_part, read, replay
from kit.geometry.motion import apply, register, turn, turn_axis
from kit.job import Job
from kit.subjects.sweep.scan_inputs import steps
from tests import DATA

FOLDER = DATA / "scan"
STATED = Job.open(DATA / "boatshed.toml").inputs("saw_sweep")
PICKS = {"saw_square": STATED["picks"], "saw_swung": STATED["second"]["picks"]}
RECIPE = steps(STATED["recipe"])


def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_demo", FOLDER / "make_demo.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def prepared(name: str) -> Prepared:
    with (FOLDER / f"{name}.ply").open("rb") as file:
        return replay(read(file, f"{name}.ply"), RECIPE, PICKS[name])


def test_the_files_come_out_the_same_and_stay_small() -> None:
    made = script().files()
    for name, content in made.items():
        assert (FOLDER / name).read_bytes() == content, name
    assert sum(map(len, made.values())) < 3_000_000


@pytest.mark.parametrize("name", ["saw_square", "saw_swung"])
def test_the_job_tells_the_points_where_the_script_put_them(name: str) -> None:
    assert {spot: list(place) for spot, place in PICKS[name].items()} == script().picks(name)


@pytest.mark.parametrize("name", ["saw_square", "saw_swung"])
def test_the_recipe_finds_the_machine_in_the_scan(name: str) -> None:
    """The scale within three uncertainties of the true 983 mm; all picks within 1.5 mm of where they are."""
    result, demo = prepared(name), script()
    scale, upright, *_ = result.found
    assert abs(scale["factor"] - 983.0) < 3.0 * scale["uncertainty"]
    assert 0.0 < upright["residual"] < 1.0
    places = apply(result.move, np.array([PICKS[name][pick] for pick in demo.POINTS]))
    assert np.abs(places - np.array(list(demo.POINTS.values()))).max() < 1.5
    assert any(note.startswith("Dropped below 25 mm: pieces") for note in result.scan.notes)
    assert result.scan.vertices[:, 2].max() < 400.0


def test_two_positions_give_the_turning_axis() -> None:
    """What moved between the scans, laid on itself, turned by 30° about the z axis."""
    square, swung = prepared("saw_square").scan, prepared("saw_swung").scan
    part, there = moving_part(square, swung, 9.0), moving_part(swung, square, 9.0)
    match = register(part.vertices, there.vertices, start=turn(0.4, (0, 0, 0), (0, 0, 1)), overlap=0.8)
    assert match.residual < 1.5
    fit = turn_axis(match.move[None], part.vertices)
    assert fit.kind == "turn"
    assert abs(fit.values[0]) == pytest.approx(np.radians(30.0), abs=np.radians(0.3))
    assert fit.axis.direction[2] == pytest.approx(1.0, abs=1e-4)
    at_bench = fit.axis.point - fit.axis.point[2] / fit.axis.direction[2] * fit.axis.direction
    assert np.linalg.norm(at_bench[:2]) < 3.0


def test_steps_are_done_in_their_order_and_counted() -> None:
    two = [{"do": "scale", "lengths": RECIPE[0]["lengths"]}, {"do": "thin", "tolerance": 4.0}]
    with (FOLDER / "saw_square.ply").open("rb") as file:
        scan = read(file, "saw_square.ply")
    result = replay(scan, two, PICKS["saw_square"])
    assert result.found[1]["vertices"] < len(scan.vertices)
    assert result.error == result.found[1]["error"] <= 4.0
    assert replay(scan, []).scan is scan


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        ({"do": "scael"}, "did you mean 'scale'"),
        ({}, "does None"),
        ({"do": "thin"}, "lacks tolerance"),
        ({"do": "thin", "tolerance": 1.0, "error": 2.0}, "unknown key 'error'"),
        ({"do": "upright", "front": "frnt", "axis": "pivot"}, "did you mean 'front'"),
    ],
)
def test_a_wrong_step_gets_a_sentence(step: dict[str, object], sentence: str) -> None:
    with (FOLDER / "saw_square.ply").open("rb") as file:
        scan = read(file, "saw_square.ply")
    with pytest.raises(KitError, match=sentence):
        replay(scan, [step], PICKS["saw_square"])


def test_a_pick_that_is_no_place_gets_a_sentence() -> None:
    with (FOLDER / "saw_square.ply").open("rb") as file:
        scan = read(file, "saw_square.ply")
    with pytest.raises(KitError, match="pick 'a'"):
        replay(scan, [], {"a": [1.0, 2.0]})
