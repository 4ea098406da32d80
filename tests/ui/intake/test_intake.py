"""The widgets of an intake without a browser: pieces of a file, touches, faults in one sentence."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.job import Job
from kit.ui.intake import Intake
from kit.ui.intake.upload import Upload
from tests.ui.intake.machine import SHIFT, SPOTS, UNIT, as_scanned, pieces, write_machine

JOB = 'format = 2\n[job]\nname = "a garage"\n\n[parts.saw]\nmodel = "sweep.step"\n'
PIECE = 1 << 16


class Browser:
    """What a browser sends of a file, and what it hears."""

    def __init__(self, upload: Upload) -> None:
        self.upload, self.heard = upload, list[dict[str, Any]]()
        upload.send = lambda content, buffers=None: self.heard.append(content)

    def piece(self, name: str, data: bytes, at: int, size: int | None = None) -> dict[str, Any]:
        content = {"name": name, "size": len(data) if size is None else size, "at": at}
        self.upload._handle_custom_msg(content, [memoryview(data[at : at + PIECE])])
        return self.heard[-1]

    def file(self, name: str, data: bytes) -> dict[str, Any]:
        for at in range(0, len(data), PIECE):
            if not self.piece(name, data, at)["more"]:
                break
        return self.heard[-1]


@pytest.fixture
def taken(tmp_path: Path) -> list[str]:
    return []


@pytest.fixture
def browser(tmp_path: Path, taken: list[str]) -> Browser:
    return Browser(Upload("Scan", tmp_path, (".stl", ".ply"), taken.append))


def test_a_file_comes_in_pieces_and_lies_beside_the_job_when_it_is_whole(
    browser: Browser, taken: list[str], tmp_path: Path
) -> None:
    data = np.random.default_rng(1).bytes(3 * PIECE + 17)
    assert browser.piece("saw.stl", data, 0) == {"have": PIECE, "more": True}
    assert not (tmp_path / "saw.stl").exists()
    for at in (PIECE, 2 * PIECE, 3 * PIECE):
        browser.piece("saw.stl", data, at)
    assert browser.heard[-1]["more"] is False
    assert taken == ["saw.stl"]
    assert [path.name for path in tmp_path.iterdir()] == ["saw.stl"]
    assert (tmp_path / "saw.stl").read_bytes() == data


def test_another_file_of_the_same_name_lies_beside_the_first(
    browser: Browser, taken: list[str], tmp_path: Path
) -> None:
    for data in (b"a" * 100, b"b" * 100, b"a" * 100):
        browser.file("saw.stl", data)
    assert taken == ["saw.stl", "saw-2.stl", "saw.stl"]
    assert (tmp_path / "saw-2.stl").read_bytes() == b"b" * 100


@pytest.mark.parametrize(
    ("name", "size", "words"),
    [
        ("notes.txt", 100, "no scan that can be read"),
        ("../../.stl", 100, "no scan that can be read"),
        ("saw.stl", 0, "more than 0"),
        ("saw.stl", 500_000_000, "at most 400 MB"),
        ("saw.stl", 50, "is said to hold"),
    ],
)
def test_what_cannot_be_taken_is_refused_before_anything_is_kept(
    browser: Browser, tmp_path: Path, name: str, size: int, words: str
) -> None:
    assert browser.piece(name, b"x" * 100, 0, size)["more"] is False
    assert words in browser.upload.said
    assert list(tmp_path.iterdir()) == []


def test_a_path_loses_its_folders(browser: Browser, taken: list[str]) -> None:
    browser.file("..\\..\\a/b\\saw.stl", b"x" * 10)
    assert taken == ["saw.stl"]


def test_pieces_out_of_order_and_a_stop_leave_nothing(browser: Browser, tmp_path: Path) -> None:
    data = b"x" * (3 * PIECE)
    browser.piece("saw.stl", data, 0)
    browser.piece("saw.stl", data, 2 * PIECE)
    assert "did not come in order" in browser.upload.said
    browser.piece("saw.stl", data, 0)
    browser.upload._handle_custom_msg({"stop": True}, [])
    assert "canceled" in browser.upload.said
    assert browser.heard[-1] == {"have": 0, "more": False}
    assert list(tmp_path.iterdir()) == []


@pytest.fixture
def intake(tmp_path: Path) -> Intake:
    """An intake with a scan, scaled."""
    (tmp_path / "garage.toml").write_text(JOB)
    write_machine(tmp_path / "saw.ply")
    made = Intake(Job.open(tmp_path / "garage.toml"), "saw")
    made.taken.file("saw.ply")
    for name in ("left", "right"):
        made.taken.spot(name, as_scanned(SPOTS[name]))
    made.forms["scale"].fit(made.taken.seen)
    form = made.forms["scale"].fields
    form["from"].value, form["to"].value, form["length"].value = "left", "right", "500 ± 1 mm"
    made.forms["scale"].button.click()
    return made


def touch(intake: Intake, place: np.ndarray[Any, Any], way: np.ndarray[Any, Any]) -> None:
    """Touch the surface by a ray through a place, as the browser asks: in shares of half the picture."""
    seen = intake.taken.second if intake.which.value else intake.taken.seen
    assert seen is not None
    low, high = seen.vertices.min(axis=0), seen.vertices.max(axis=0)
    reach = np.linalg.norm(high - low) / 2.0
    start = (place - way * 4.0 * reach - (low + high) / 2.0) / reach
    ask(intake, {"kind": "touch", "from": start.tolist(), "way": way.tolist(), "pixel": 0.002})


def ask(intake: Intake, content: dict[str, Any], *, picture: int | None = None) -> None:
    """Ask as the browser does, of the picture that it shows."""
    shown = intake.view.picture if picture is None else picture
    number = intake.view.answered + 1
    intake.view._handle_custom_msg({**content, "picture": shown, "number": number}, [])
    assert intake.view.answered == number


def test_a_touch_sets_the_named_spot_on_the_surface_and_names_the_next(intake: Intake) -> None:
    down = as_scanned([0.0, 0.0, -1.0]) - as_scanned([0.0, 0.0, 0.0])
    place = (as_scanned([-200.0, -150.0, 50.0])) * 1250.0
    intake.name.value = "corner"
    touch(intake, place, down / np.linalg.norm(down))
    assert "corner is set at" in intake.message.value
    assert intake.name.value == "spot 1"
    assert intake.chosen.value == "corner"
    seen = intake.taken.seen
    assert seen is not None
    np.testing.assert_allclose(seen.spots["corner"], as_scanned([-200.0, -150.0, 0.0]) * 1250.0, atol=0.01)
    assert [each["chosen"] for each in intake.view.spots] == [False, False, True]
    ask(intake, {"kind": "nudge", "by": [0.01, 0.0, 0.0]})
    assert "corner is moved to" in intake.message.value
    old = intake.view.picture
    ask(intake, {"kind": "delete"})
    assert "corner" not in intake.taken.seen.spots
    intake.undo.click()
    assert intake.view.picture == old, "a spot makes no other picture of the surface"


def test_of_a_picture_that_is_gone_nothing_is_taken(intake: Intake) -> None:
    """A touch may come while a step runs that gives the surface other axes or another scale."""
    old, spots = intake.view.picture, dict(intake.taken.seen.spots)
    intake.undo.click()
    assert not intake.taken.seen.scaled
    ask(intake, {"kind": "touch", "from": [0.0, 0.0, 4.0], "way": [0.0, 0.0, -1.0], "pixel": 0.002}, picture=old)
    assert "picture has changed" in intake.message.value
    ask(intake, {"kind": "delete"}, picture=old)
    assert "picture has changed" in intake.message.value
    assert list(intake.taken.seen.spots) == list(spots)


def test_a_touch_beside_the_scan_and_a_failing_step_say_so_in_one_sentence(intake: Intake) -> None:
    touch(intake, np.array([9e3, 0.0, 0.0]), np.array([0.0, 0.0, 1.0]))
    assert "no surface under the pointer" in intake.message.value
    intake.forms["upright"].button.click()
    assert "Upright needs a spot in front of the axis" in intake.message.value
    assert intake.message.value.count('role="alert"') == 1
    intake.undo.click()
    assert not intake.taken.seen.scaled
    assert intake.redo.description == "Redo scale"


def test_only_a_part_with_a_scan_has_one(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text('format = 2\n[parts.stop]\nmodel = "stop.deflection"\n')
    with pytest.raises(KitError, match="takes in no scan"):
        Intake(Job.open(tmp_path / "job.toml"), "stop")


BLOCKS = """units = "in"

[parts.saw]
model = "sweep.step"
[[parts.saw.joints]]
name = "swing"
kind = "turn"
point = ["0 in", "0 in", "0 in"]
direction = [0, 0, 1]
low = "-swing_right"
high = "swing_left"
[[parts.saw.blocks]]
name = "head"
rides = "swing"
low = ["-3 ± 1/16 in", "-10 ± 1/16 in", "3 ± 1/16 in"]
high = ["3 ± 1/16 in", "8 ± 1/16 in", "14 ± 1/16 in"]
[parts.saw.givens]
tilt_most = "0 deg"
slide_most = "0 in"
"""


def test_a_machine_in_inches_is_swept_step_by_step_and_can_be_stopped(tmp_path: Path) -> None:
    path = tmp_path / "garage.toml"
    path.write_text(f'format = 2\n[job]\nname = "a garage"\n{BLOCKS}')
    told: list[str] = []
    intake = Intake(Job.open(path), "saw", lambda: told.append(path.read_text()))
    assert intake.forms["block"].fields["left"].value == "-7.75 ± 0.05 in"
    at: list[float] = []
    behind: list[float] = []  # when others did not know yet what was saved
    intake.bar.observe(lambda change: at.append(change["new"]), "value")
    intake.bar.observe(lambda change: told[-1:] == [path.read_text()] or behind.append(change["new"]), "value")
    intake.envelope.click()
    assert behind == []
    assert "pale surface is the swept envelope" in intake.message.value
    assert "greatest reach" in intake.answer.value
    assert at == sorted(at)
    assert intake.stop.disabled
    before = path.read_text()
    intake.bar.observe(lambda _: intake.stop.click(), "value")
    intake.envelope.click()
    assert "Stopped" in intake.message.value
    assert path.read_text() == before
    assert not intake.envelope.disabled, "it can be asked for again"


SWUNG = np.radians(30.0)  # the second scan was made after the arm was swung this far
OTHER = trimesh.transformations.euler_matrix(-0.3, 0.6, 0.2)[:3, :3]  # and in other axes


def as_scanned_again(points: Any) -> np.ndarray[Any, Any]:
    return np.asarray(points, dtype=float) @ OTHER.T / UNIT - SHIFT


def test_a_second_scan_touched_in_its_own_axes_gives_the_joint_its_axis(intake: Intake, tmp_path: Path) -> None:
    again = tmp_path / "again.ply"
    swung = trimesh.transformations.rotation_matrix(SWUNG, (0.0, 0.0, 1.0))
    parts = [part.apply_transform(swung) if number else part for number, part in enumerate(pieces())]
    whole = trimesh.util.concatenate(parts)
    again.write_bytes(
        trimesh.Trimesh(as_scanned_again(whole.vertices), whole.faces, process=False).export(file_type="ply")
    )
    taken, steps = intake.taken, {step.name: step for step in intake.taken.intake.steps}
    names = ("bed 1", "bed 2", "bed 3", "axis", "front")
    for name in names:
        taken.spot(name, as_scanned(SPOTS[name]) * UNIT)
    upright = {"bed": names[:3], "front": "front", "axis": "axis", "up": "", "tolerance": "2 mm"}
    taken.step(steps["upright"], upright)
    taken.spot("beside it", np.array([12.0, -9.0, 60.0]))  # the axis as somebody guesses it
    rough = {"name": "swing", "kind": "turn", "at": "beside it", "toward": "straight up", "second": ""}
    taken.step(steps["joint"], rough | {"low": "-45 deg", "high": "45 deg"})
    assert np.abs(taken.seen.axes["swing"][:, :2] - [12.0, -9.0]).max() < 0.1

    form = intake.forms["second"]
    form.fit(taken.seen)
    form.button.click()
    assert "Joint by a second scan needs the joint that was moved" in intake.message.value
    form.fields["joint"].value = "swing"
    form.button.click()
    assert "second scan is not here yet" in intake.message.value
    Browser(form.fields["scan"]).file("again.ply", again.read_bytes())
    form.fields["turned"].value = "25 deg"
    form.button.click()
    assert intake.which.value, "it is shown, to be touched"
    down = as_scanned_again([0.0, 0.0, -1.0]) - as_scanned_again([0.0, 0.0, 0.0])
    for name in ("left", "right", *names):
        assert intake.name.value == name, "what is missing is named next"
        touch(intake, as_scanned_again(SPOTS[name]), down / np.linalg.norm(down))
        assert f"{name} is set at" in intake.message.value
    (found,) = (each for each in taken.seen.found if each.title == "Second scan")
    assert "laid on the first" in found.words
    assert "its axis is taken" in found.words
    # The scans were made by a turn of 30° about z through the zero.
    assert np.abs(taken.seen.axes["swing"][:, :2]).max() < 0.5
    assert "the swing went 30.00°; its axis is 15.00 mm" in found.words  # √(12² + 9²) mm
    assert Job.open(tmp_path / "garage.toml").raw_inputs("saw")["second"]["take"] is True
    taken.take_out(found.at, found.title)
    assert taken.second is None
    assert np.abs(taken.seen.axes["swing"][:, :2] - [12.0, -9.0]).max() < 0.1
