"""Two small works, put beside the kit's own: one makes a disk of a given's size, one takes it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

import kit.works

DISK = '''
"""A disk whose diameter is the rise of the gauge blocks."""
from dataclasses import replace
from kit.drawing.scene import Scene
from kit.errors import KitError
from kit.files import write_atomic
from kit.works import Held, Made, Number, Output, Picture, Rows

CALLS = []


def make(order):
    CALLS.append(order)
    across = order.value["rise"]
    if order.shape.get("broken"):
        raise KitError("the disk <is> broken; mend it")

    def write(folder, stem, display):
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / f"{stem}.txt"
        write_atomic(path, f"{across:.3f}")
        return [path]

    def draw(display):
        scene = Scene("disk", "a disk <1>")
        scene.circle((0, 0), across / 2)
        return scene

    return Made(
        numbers=(Number("across", "width <across>", across),),
        limits=(Held("small", "the disk is 1 mm of 2 mm & less", across < 150, "make it smaller"),),
        cautions=("mind the <edge>",),
        pictures=(Picture("disk", "The disk", "a round one", draw),),
        tables=(Rows("Disks", ("name", "size"), (("<one>", "1 mm"),)),),
        outputs=(Output("note", "a note of the size", write),),
        data=across,
    )


def propose(order):
    return {"rise": "50 mm"}


def slow(order, progress):
    progress(0.5, "half")
    return replace(make(order), numbers=(Number("across", "exactly", order.value["rise"] + 1),))


TASKS = {"Work it exactly": slow}
'''

TAKER = '''
"""Takes a disk."""
from kit.works import Made, Number

TAKES = ("disk",)


def make(order):
    return Made(numbers=(Number("twice", "twice the disk", 2 * order.takes["disk"].data),))
'''


@pytest.fixture
def works(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Hang the works on bevel.setting and fold.hem; return a folder for a job."""
    import sys

    import kit.works.making as making

    beside = tmp_path / "beside"
    beside.mkdir()
    (beside / "bevel_setting.py").write_text(DISK)
    (beside / "fold_hem.py").write_text(TAKER)
    monkeypatch.setattr(kit.works, "__path__", [*kit.works.__path__, str(beside)])
    making.forget()
    yield tmp_path
    making.forget()
    for name in ("bevel_setting", "fold_hem"):
        sys.modules.pop(f"kit.works.{name}", None)
