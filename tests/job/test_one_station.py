"""Each demo job is one station: what is there once is stated once, and its parts take it from there."""

import pytest

from kit.job import Job, open_job
from tests import DATA

SAME = {
    "boatshed": (
        ("stop_reading.block", "stop_bow.length", "stop_warp.length", "stop_key.length", "stop_face.nominal"),
        ("long_stop.short_reach", "stop_reading.knob"),
        ("long_stop.long_reach", "track_key.reach"),
        ("long_stop.key_length", "track_key.key_length"),
        ("track_key.key", "stop_key.width"),
        ("machine.track_play", "long_stop.key_play", "stop_key.play_made"),
        ("scale_zero.datum", "stop_reading.scale_from"),
        ("drop_chute.hose", "hose_cuff.narrow", "hose_elbow.size"),
        ("drop_chute.offcut", "hood_air.offcut"),
        ("hood.chute", "hood_air.diameter"),
        ("long_stop.friction", "stop_clamp.friction"),
        ("knob_torque.axial_force", "long_stop.clamp_force"),
    ),
    "schoolshop": (
        ("fence.friction", "fence_clamp.friction"),
        ("knob_force.axial_force", "fence.clamp_force"),
        ("saw_block.block", "saw_block_face.nominal"),
    ),
}


@pytest.fixture(params=SAME, scope="module")
def job(request: pytest.FixtureRequest) -> Job:
    return open_job(DATA / f"{request.param}.toml")


def test_what_is_there_once_has_one_value(job: Job) -> None:
    for same in SAME[job.path.stem]:
        values = [_value(job, place) for place in same if not place.startswith("machine.")]
        assert values == pytest.approx([values[0]] * len(values)), same


def test_the_block_of_the_boat_shed_is_as_long_as_both_its_ends() -> None:
    job = open_job(DATA / "boatshed.toml")
    ends = _value(job, "long_stop.long_reach") + _value(job, "long_stop.short_reach")
    assert ends == pytest.approx(_value(job, "stop_reading.block"))


def test_the_play_of_the_track_is_that_of_its_key() -> None:
    job = open_job(DATA / "boatshed.toml")
    assert _value(job, "track_key.play_made") == pytest.approx(_value(job, "stop_key.play_made"))


def test_there_is_one_hood(job: Job) -> None:
    hoods = [part for part in job.parts if job.case(part).model.name == "hood.shape"]
    assert len(hoods) == 1


def _value(job: Job, place: str) -> float:
    part, _, name = place.partition(".")
    return job.case(part).base[name]
