"""Where values come from in a panel: what typing, sliding and solving leave, what is entered, and what blocks."""

from datetime import date
from pathlib import Path

import pytest

from kit.core.quantity import ValueOrigin
from kit.job import Job
from kit.ui.panel import Panel, panel

JOB = """\
format = 2
[job]
name = "Bench"

[parts.frame]
model = "bevel.frame"

[parts.corner]
model = "bevel.corner"

[parts.corner.givens]
slope_1 = { from = "frame.tilt" }

[parts.stop]
model = "stop.deflection"

[parts.stop.givens]
long_reach = { value = "451 ± 2 mm", measured = 2026-04-11, how = "tape, square to the pin" }
push = { value = "60 ± 5 N", spread = "normal", k = 1 }
"""
TAPE = ValueOrigin("measured", "2026-04-11", "tape, square to the pin")


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Job:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bench.toml").write_text(JOB, encoding="utf-8")
    return Job.open(tmp_path / "bench.toml")


@pytest.fixture
def stop(job: Job) -> Panel:
    return panel(job=job, part="stop")


def line(job: Job, name: str) -> str:
    return next(each for each in job.path.read_text().splitlines() if each.startswith(f"{name} = "))


def test_a_slider_over_a_measured_value_takes_method_date_and_half_width_away(stop: Panel, job: Job) -> None:
    stop.fields["long_reach"].control.value = 465
    entry = stop.case.entries["long_reach"]
    assert (entry.base, entry.origin, entry.usual) == (465, ValueOrigin("chosen"), True)
    assert "± not stated, the usual one" in stop.fields["long_reach"].note.value
    assert "±" not in stop.fields["long_reach"].box.value
    stop.saving.save.click()
    assert line(job, "long_reach") == 'long_reach = { value = "465.0 mm" }'


@pytest.mark.parametrize("back", ["451 ± 2 mm", "451.0 mm", "451", "45.1 cm", "451.0 ± 2.0 mm"])
def test_a_value_typed_back_gets_its_date_and_method_back(stop: Panel, job: Job, back: str) -> None:
    before = job.path.read_text()
    box = stop.fields["long_reach"].box
    box.value = "465 ± 1 mm"
    assert stop.case.entries["long_reach"].origin.kind == "chosen"
    box.value = back
    entry = stop.case.entries["long_reach"]
    assert (entry.origin, entry.spread.half) == (TAPE, 2)
    stop.saving.save.click()
    assert job.path.read_text() == before


def test_another_half_width_is_another_statement(stop: Panel) -> None:
    stop.fields["long_reach"].box.value = "451 ± 1 mm"
    assert stop.case.entries["long_reach"].origin == ValueOrigin("chosen")


def test_an_example_moved_and_moved_back_is_an_example_again(stop: Panel) -> None:
    words, box = stop.judged.words, stop.fields["allowed"].box
    typed = box.value
    box.value = "0.2 mm"
    assert stop.judged.words != words
    box.value = typed
    assert stop.judged.words == words
    assert stop.saving.unsaved == set()


def test_an_overridden_link_keeps_nothing_of_it(job: Job) -> None:
    made = panel(job=job, part="corner")
    assert made.case.entries["slope_1"].origin.kind == "part"
    assert made.case.entries["slope_1"].spread.k == 1
    made.fields["slope_1"].box.value = "80 deg"
    entry = made.case.entries["slope_1"]
    assert (entry.origin, entry.spread) == (ValueOrigin("chosen"), made.model.givens["slope_1"].spread)
    made.saving.save.click()
    assert line(job, "slope_1") == 'slope_1 = { value = "80 deg" }'
    made.saving.reset.click()
    assert made.case.base["slope_1"] == pytest.approx(80 * 3.141592653589793 / 180)


def test_solving_clears_method_and_says_how_it_was_found(stop: Panel, job: Job) -> None:
    stop.solving.unknown.value, result = "long_reach", stop.solving.result.value
    stop.solving.target.value = stop.case.with_(long_reach="470 mm").show(result)
    stop.solving.button.click()
    stop.solving.accept.click()
    entry = stop.case.entries["long_reach"]
    assert (entry.origin.kind, entry.origin.measured, entry.usual) == ("solved", "", True)
    found = entry.base
    stop.saving.save.click()
    assert "tape" not in line(job, "long_reach")
    assert f'origin = "solved", how = "so that {result.replace("_", " ")} is' in line(job, "long_reach")
    assert Job.open(job.path).case("stop").base["long_reach"] == pytest.approx(found, rel=1e-11)


def test_an_origin_is_read_and_entered_behind_its_value(stop: Panel, job: Job) -> None:
    field = stop.fields["push"]
    assert field.origin is None
    assert field.opened.description == "chosen"
    field.opened.value = True
    assert field.origin is not None
    assert (field.origin.kind.value, field.origin.half.value) == ("chosen", "5 N")
    field.origin.day.value, field.origin.by.value = date(2026, 6, 1), "A. Turner"
    field.origin.how.value, field.origin.note.value = "spring scale", "at the face"
    assert field.opened.description == "measured"
    assert stop.case.entries["push"].origin == ValueOrigin(
        "measured", "2026-06-01", "spring scale", "A. Turner", note="at the face"
    )
    field.origin.half.value = "4 N"
    assert (stop.case.entries["push"].spread.half, stop.case.entries["push"].spread.k) == (4, 1)
    stop.saving.save.click()
    saved = Job.open(job.path).case("stop").entries["push"]
    assert (saved.origin, saved.spread) == (stop.case.entries["push"].origin, stop.case.entries["push"].spread)
    field.box.value = "61 N"
    assert (field.origin.day.value, field.origin.how.value, field.origin.half.value) == (None, "", "")
    assert "is usual" in field.origin.half.placeholder
    field.origin.half.value = "broad"
    assert "fw-fault" in field.origin.words.value


def test_what_belongs_to_an_example_does_not_become_a_measurement_s(stop: Panel) -> None:
    field = stop.fields["block_width"]
    assert stop.case.entries[field.given.name].origin.kind == "example"
    field.opened.value = True
    assert field.origin is not None
    assert field.origin.how.value == ""
    field.origin.day.value = date(2026, 6, 1)
    entry = stop.case.entries[field.given.name]
    assert entry.origin == ValueOrigin("measured", "2026-06-01")
    assert entry.usual, "the example's ± is not the measurement's"
    field.origin.kind.value = "chosen"
    assert stop.case.entries[field.given.name].origin == ValueOrigin("chosen")


def test_the_origin_of_a_link_is_read_only(job: Job) -> None:
    field = panel(job=job, part="corner").fields["slope_1"]
    field.opened.value = True
    assert field.origin is not None
    assert all(each.disabled for each in field.origin.fields)
    field.box.value = "80 deg"
    assert not any(each.disabled for each in field.origin.fields)


def test_every_field_behind_a_value_has_a_name(stop: Panel) -> None:
    field = stop.fields["push"]
    field.opened.value = True
    assert field.origin is not None
    assert all(each.description and each.tooltip for each in field.origin.fields)
    assert field.given.meaning in field.opened.tooltip


def test_a_refused_entry_blocks_saving_and_exporting_and_says_so(stop: Panel, job: Job, tmp_path: Path) -> None:
    before = job.path.read_text()
    stop.fields["push"].box.value = "90 N"
    stop.fields["long_reach"].box.value = "465 N"
    label = "from the clamp's middle to the tip of the long end"  # as beside the field
    assert f">{label}: " in stop.fields["long_reach"].note.value.replace("&#x27;", "'")
    for button in (stop.saving.save, stop.saving.export):
        assert button.disabled
        button.click()
    assert f"not while {label} cannot be read" in stop.saving.held.value.replace("&#x27;", "'")
    assert job.path.read_text() == before
    assert not (tmp_path / "sheets").exists()
    stop.fields["long_reach"].box.value = "465 mm"
    assert stop.saving.held.value == ""
    stop.saving.save.click()
    assert line(job, "push") == 'push = { value = "90 N" }'


def test_reset_and_save_agree_on_what_the_file_says(stop: Panel, job: Job) -> None:
    stop.fields["push"].box.value = "90 N"
    stop.saving.save.click()
    stop.fields["push"].box.value = "95 N"
    stop.saving.reset.click()
    assert stop.case.base["push"] == 90, "what was saved, not what was there before"
    job.path.write_text(job.path.read_text().replace("90 N", "91 N"))
    stop.saving.reset.click()
    assert stop.fields["push"].box.value.startswith("91")
    stop.saving.save.click()
    assert "no changes" in stop.saving.message.value


def test_a_save_that_fails_leaves_nothing_staged(stop: Panel, job: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    stop.fields["push"].box.value = "90 N"

    def full(*_: object, **__: object) -> None:
        raise OSError("no space left")

    monkeypatch.setattr("kit.job.job.write_atomic", full)
    stop.saving.save.click()
    assert "no space left" in stop.saving.message.value
    assert not job.changed
    monkeypatch.undo()
    stop.saving.save.click()
    assert "saved sideways push of the work at the tip to" in stop.saving.message.value


def test_a_value_typed_back_after_it_was_saved_over_gets_its_date_and_method_back(stop: Panel, job: Job) -> None:
    before = job.path.read_text()
    stop.fields["long_reach"].box.value = "465 mm"
    stop.saving.save.click()
    stop.fields["long_reach"].box.value = "451 mm"
    assert stop.case.entries["long_reach"].origin == TAPE
    stop.saving.save.click()
    assert job.path.read_text() == before


def test_the_row_of_a_table_tells_where_it_is_known_from_and_takes_what_is_entered(stop: Panel, job: Job) -> None:
    wood, before = stop.picks["block_wood"], stop.case.base["block_modulus"]
    stop.fields["block_modulus"].box.value = "11 GPa"
    assert wood.opened.description == "example"
    wood.opened.value = True
    wood.origin.how.value = "the yard's slip"
    assert wood.opened.description == "measured"
    assert "the yard&#x27;s slip" in wood.note.value
    assert stop.case.base["block_modulus"] == 11_000, "who tells where the row is known from changes no figure"
    stop.saving.save.click()
    assert (
        line(job, "block_wood")
        == 'block_wood = { value = "hard maple", origin = "measured", how = "the yard\'s slip" }'
    )
    assert job.case("stop").origins["block_wood"] == ValueOrigin("measured", how="the yard's slip")
    wood.control.value = "white ash"
    assert (wood.opened.description, wood.origin.how.value) == ("chosen", "")
    assert stop.case.base["block_modulus"] != before
    stop.steps.undo.click()
    assert (wood.opened.description, wood.origin.how.value) == ("measured", "the yard's slip")
