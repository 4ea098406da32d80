"""Builds while a control moves: coarse where the fine one takes longer, the same fine one afterward, nothing twice."""

from dataclasses import replace
from typing import Any

import pytest

from kit.core.build import Build, BuildInput, Picture
from kit.drawing.space import STANDARD
from kit.job import Job
from kit.job.build import build_input
from kit.sheet import build_section
from kit.subjects import subject
from tests import DATA


@pytest.fixture(scope="module")
def boatshed() -> Job:
    return Job.open(DATA / "boatshed.toml")


def made(asked: BuildInput) -> Build:
    builder = subject(asked.case.model.name).build
    assert builder is not None
    return builder(asked)


@pytest.mark.parametrize(
    ("part", "given", "value"),
    [("drop_chute", "height", "356 mm"), ("wall_skin", "chord_error", "0.13 mm"), ("hood", "back", "402 mm")],
)
def test_a_coarse_shape_says_so_and_is_near_the_fine_one(boatshed: Job, part: str, given: str, value: str) -> None:
    asked = build_input(boatshed, part)
    moved = replace(asked, case=asked.case.with_(**{given: value}), quick=True)
    coarse, fine = made(moved), made(replace(moved, quick=False))
    assert coarse.coarse
    assert not fine.coarse
    assert not made(moved).coarse, "the fine one is known by now"
    assert [each.name for each in coarse.pictures] == [each.name for each in fine.pictures]
    told = {each.name: each for each in fine.checks}
    assert all(told[each.name].ok == each.ok for each in coarse.checks)
    for name in {each.name for each in coarse.numbers} & {"cloth", "opening", "sewn", "wood", "clearance"}:
        assert coarse.number(name).base == pytest.approx(fine.number(name).base, rel=5e-3)
    if len(coarse.checks) < len(fine.checks):
        assert coarse.open, "what was not looked at is said"


def test_a_given_that_no_picture_shows_has_none_drawn_again(boatshed: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = build_input(boatshed, "wall_skin")
    drawn: list[str] = []
    draw = build_section.picture

    def noted(shown: Picture, *args: Any, **named: Any) -> str:
        drawn.append(shown.name)
        return draw(shown, *args, **named)

    monkeypatch.setattr(build_section, "picture", noted)

    def shown(build: Build) -> list[str]:
        camera = STANDARD["corner"]
        return [
            build_section.live_picture(each, asked.display, ids=f"t{n}", size=(640, 420), camera=camera)
            for n, each in enumerate(build.pictures[:2])
        ]

    first = shown(made(asked))
    assert drawn == ["pattern", "form"]
    assert shown(made(replace(asked, case=asked.case.with_(stitch="3.2 mm")))) == first
    assert drawn == ["pattern", "form"]
    other = shown(made(replace(asked, case=asked.case.with_(seam_allowance="14 mm"))))
    assert drawn == ["pattern", "form", "pattern"], "the form has no allowances"
    assert other[0] != first[0]
    assert other[1] == first[1]
