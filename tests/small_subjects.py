"""Two small builders, hung on the kit's own models: one makes a disk of a given's size, one takes it."""

from collections.abc import Iterator
from copy import copy
from dataclasses import replace
from pathlib import Path

import pytest

from kit import subjects
from kit.core.build import Build, BuildInput, Number, Output, Picture, Progress, Table
from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.core.model.input_terms import file, flag
from kit.core.quantity import Display
from kit.core.subject import Subject
from kit.core.verdict import fact
from kit.drawing.scene import Scene
from kit.job.build import forget

CALLS: list[BuildInput] = []


def disk(inputs: BuildInput) -> Build:
    """A disk whose diameter is the rise of the gauge blocks."""
    CALLS.append(inputs)
    across = inputs.base["rise"]
    if inputs.stated["broken"]:
        raise KitError("the disk <is> broken; mend it")

    def write(folder: Path, stem: str, _display: Display) -> list[Path]:
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / f"{stem}.txt"
        write_atomic(path, f"{across:.3f}")
        return [path]

    def draw(_display: Display) -> Scene:
        scene = Scene("disk", "a disk <1>")
        scene.circle((0, 0), across / 2)
        return scene

    return Build(
        numbers=(Number("across", "width <across>", across),),
        checks=(fact("small", across < 150, "the disk is 1 mm of 2 mm & less", "make it smaller"),),
        cautions=("mind the <edge>",),
        pictures=(Picture("disk", "The disk", "a round one", draw),),
        tables=(Table("Disks", ("name", "size"), (("<one>", "1 mm"),)),),
        outputs=(Output("note", "a note of the size", write),),
        data=across,
    )


def propose(_inputs: BuildInput) -> dict[str, str]:
    return {"rise": "50 mm"}


def slow(inputs: BuildInput, progress: Progress) -> Build:
    progress(0.5, "half")
    return replace(disk(inputs), numbers=(Number("across", "exactly", inputs.base["rise"] + 1),))


def taker(inputs: BuildInput) -> Build:
    """Takes a disk."""
    return Build(numbers=(Number("twice", "twice the disk", 2 * inputs.takes["disk"].data),))


@pytest.fixture
def works(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Hang the builders on bevel.setting and fold.hem; return a folder for a job."""
    setting, hem = subjects.subject("bevel.setting"), subjects.subject("fold.hem")
    asking = copy(setting.model)
    asking.inputs = {
        each.name: each for each in (file("paper", "a paper beside the job"), flag("broken", "it is broken"))
    }
    hung = {
        "bevel.setting": Subject(asking, setting.draw, build=disk, tasks={"Work it exactly": slow}, propose=propose),
        "fold.hem": Subject(hem.model, hem.draw, build=taker, takes={"disk": "disk"}),
    }
    monkeypatch.setattr(subjects, "PAGES", subjects.PAGES | {name: (lambda s=s: s) for name, s in hung.items()})
    monkeypatch.setattr(subjects, "MAKES", subjects.MAKES | {"bevel.setting": ("disk",)})
    subjects._loaded.cache_clear()
    CALLS.clear()
    forget()
    yield tmp_path
    subjects._loaded.cache_clear()
    forget()
