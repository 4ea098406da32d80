"""Panels without a browser: set a control, read what the panel says."""

import re
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.core.model import Case
from kit.core.quantity import Display
from kit.core.uncertainty import answers
from kit.job import Job
from kit.subjects import names
from kit.ui.panel import Panel, panel

JOB = """\
format = 2
[job]
name = "Test <bench>"
units = "mm"

[parts.stop]
model = "stop.deflection"   # the long one
title = "Long stop"

[parts.stop.givens]
long_reach = "700 ± 1 mm"   # measured twice
"""


@pytest.fixture
def stop() -> Panel:
    return panel("stop.deflection")


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Job:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "bench.toml"
    path.write_text(JOB, encoding="utf-8")
    return Job.open(path)


def shown(html: str, what: str) -> str:
    """The text of the element that carries a test id."""
    found = re.search(rf'data-testid="{what}">([^<]*)<', html)
    assert found, what
    return found[1]


def answered(case: Case, result: str, display: Display) -> str:
    return answers.answered(case, case.model.results[result], display)


@pytest.mark.parametrize("name", names())
def test_every_model_has_a_panel(name: str) -> None:
    made = panel(name)
    assert set(made.fields) == set(made.model.free)
    for result in made.model.results:
        assert shown(made.answer.value, f"value-{result}") == answered(made.case, result, made.display)
    assert "<svg" in made.answer.value
    assert "<math" in made.formula.value
    for opened in range(3):
        made.more.selected_index = opened
        assert made.more.children[opened].value
    made.units.value = "in"
    for result in made.model.results:
        assert answered(made.case, result, made.display) in made.answer.value.replace("&quot;", '"')


def test_a_slider_moves_everything(stop: Panel) -> None:
    before = (stop.answer.value, stop.formula.value)
    stop.fields["push"].control.value = 90
    assert stop.fields["push"].box.value.startswith("90")
    assert stop.case.base["push"] == 90
    for old, new in zip(before, (stop.answer.value, stop.formula.value), strict=True):
        assert old != new
    figure = [re.search(r"<svg.*</svg>", text, re.DOTALL) for text in (before[0], stop.answer.value)]
    assert figure[0]
    assert figure[1]
    assert figure[0][0] != figure[1][0]


def test_a_typed_text_is_read_in_any_unit_and_moves_the_slider(stop: Panel) -> None:
    stop.fields["long_reach"].box.value = "2 ft"
    assert stop.case.base["long_reach"] == pytest.approx(609.6)  # 1 ft = 304.8 mm, international agreement 1959
    assert stop.fields["long_reach"].control.value == pytest.approx(609.6, abs=10)
    stop.fields["long_reach"].box.value = "610"
    assert "no unit typed, mm taken" in stop.fields["long_reach"].note.value


def test_a_wrong_entry_is_explained_and_the_last_answer_stays(stop: Panel) -> None:
    field, before = stop.fields["long_reach"], stop.answer.value
    for wrong, words in (("12 <b>kg", "&lt;b&gt;"), ("600,5 mm", "comma"), ("12 kg", "length")):
        field.box.value = wrong
        assert words in field.note.value
        assert "<b>" not in field.note.value
        assert field.box.value == wrong, "what was typed stays, to be mended"
    assert stop.answer.value == before
    field.box.value = "620 mm"
    assert "fw-fault" not in field.note.value
    assert stop.answer.value != before


def test_a_span_is_left_knowingly_only(stop: Panel) -> None:
    field = stop.fields["long_reach"]
    field.box.value = "3 m"
    assert "this model holds for" in field.note.value
    assert stop.case.base["long_reach"] == 600
    field.outside.value = True
    assert stop.case.base["long_reach"] == 3000
    assert "Outside the model" in stop.verdict.value
    field.outside.value = False
    assert "this model holds for" in field.note.value
    field.box.value = "600 mm"
    assert stop.case.beyond == frozenset()


def test_a_pick_fills_its_givens_and_a_typed_value_wins(stop: Panel) -> None:
    stop.picks["block_wood"].control.value = "douglas-fir"
    assert stop.fields["block_modulus"].box.value.startswith(stop.case.show("block_modulus").split(" ")[0])
    assert "Wood Handbook" in stop.case.entries["block_modulus"].origin.source
    stop.fields["block_modulus"].box.value = "11.5 GPa"
    assert stop.case.base["block_modulus"] == 11_500
    stop.picks["block_wood"].control.value = "hard maple"
    assert stop.case.base["block_modulus"] != 11_500


def test_a_row_that_lacks_a_figure_is_explained(stop: Panel) -> None:
    stop.picks["block_wood"].control.value = "white oak"  # no ratio of shear in the LT plane is printed
    assert "no shear_lt_ratio" in stop.picks["block_wood"].note.value
    assert stop.case.picks["block_wood"] == "hard maple"


def test_every_stop_of_a_slider_lies_in_its_span(stop: Panel) -> None:
    for system in ("mm", "in"):
        stop.units.value = system
        for name, field in stop.fields.items():
            if field.given.kind == "choice":
                continue
            for end in (field.control.min, field.control.max):
                field.control.value = end
                assert "fw-fault" not in field.note.value, (name, system, end, field.note.value)


def test_a_browser_that_rounds_a_slider_to_its_stop_changes_nothing(stop: Panel) -> None:
    field = stop.fields["long_reach"]
    field.box.value = "604 mm"
    start, step = field.control.value, field.control.step
    field.control.value = start + step * 1e-9
    field.control.value = start - step * 0.4
    assert stop.case.base["long_reach"] == 604
    assert field.box.value == "604 mm"
    field.control.value = start + step
    assert stop.case.base["long_reach"] == start + step


def test_finding_a_given(stop: Panel) -> None:
    solving, before = stop.solving, stop.case
    solving.unknown.value, solving.result.value, solving.target.value = "key_length", "play_tip", "0.1 mm"
    solving.solve()
    assert stop.case is before, "the answer is shown before it is taken"
    assert "closed form" in solving.outcome.value
    assert "<math" in solving.outcome.value
    assert solving.accept.description == "Take 600.0 mm"
    solving.accept.click()
    # play 0.1 mm over a key of L turns the block by 0.1/L; at 600 mm the tip moves 60/L: L = 600 mm
    assert stop.case.base["key_length"] == pytest.approx(600)
    assert solving.accept.layout.display == "none"
    stop.steps.undo.click()
    assert stop.case.base == before.base
    solving.target.value = "5 kg"
    solving.solve()
    assert "fw-fault" in solving.outcome.value


def test_finding_what_keeps_to_a_bound(stop: Panel) -> None:
    solving = stop.solving
    labels = [label for label, _ in solving.unknown.options]
    assert labels[:2] == [given.meaning for given in list(stop.model.free.values())[:2]], "as beside the controls"
    solving.unknown.value, solving.result.value = "key_length", "play_tip"
    solving.sense.value, solving.target.value = "<=", "0.1 mm"
    solving.solve()
    assert "600.0 mm to 1000.0 mm gives" in solving.outcome.value
    assert "at most 0.100 mm" in solving.outcome.value
    stop.change("push", "61 N")
    assert "solve again" in solving.outcome.value
    assert solving.accept.layout.display == "none"
    solving.sense.value = ">="
    solving.solve()
    assert "it is so already" in solving.outcome.value
    solving.target.value = "50 mm"
    solving.solve()
    assert "nearest is" in solving.outcome.value


def test_reset_goes_back_to_the_start(stop: Panel) -> None:
    start = stop.case
    stop.fields["push"].control.value = 90
    stop.picks["rib_wood"].control.value = "black cherry"
    stop.saving.reset.click()
    assert stop.case == start
    assert stop.picks["rib_wood"].control.value == "hard maple"
    assert stop.fields["push"].box.value == start.entries["push"].show(stop.display)


def test_saving_writes_only_what_changed(job: Job) -> None:
    made = panel(job=job, part="stop")
    made.fields["push"].box.value = "75 N"
    made.saving.save.click()
    text = job.path.read_text(encoding="utf-8")
    assert "saved sideways push of the work at the tip to" in made.saving.message.value
    assert 'push = "75 N"' in text
    assert 'long_reach = "700 ± 1 mm"   # measured twice' in text
    assert "# the long one" in text
    assert Job.open(job.path).case("stop").base["push"] == 75
    made.saving.save.click()
    assert "no changes" in made.saving.message.value


def test_a_span_left_knowingly_is_saved_with_the_value(job: Job) -> None:
    made = panel(job=job, part="stop")
    made.fields["long_reach"].box.value = "3 m"
    made.fields["long_reach"].outside.value = True
    made.saving.save.click()
    assert "saved from the clamp&#x27;s middle to the tip of the long end to" in made.saving.message.value
    again = Job.open(job.path).case("stop")
    assert again.base["long_reach"] == 3000
    assert again.beyond == {"long_reach"}


def test_a_hand_edit_made_meanwhile_is_noticed_and_asked_about(job: Job) -> None:
    made = panel(job=job, part="stop")
    made.fields["long_reach"].box.value = "710 mm"
    by_hand = job.path.read_text(encoding="utf-8").replace("700 ± 1 mm", "720 mm")
    job.path.write_text(by_hand, encoding="utf-8")
    for _ in range(3):
        made.saving.save.click()
    assert "720 mm" in made.saving.message.value
    assert "Overwrite file" in made.saving.message.value
    assert "force" not in made.saving.message.value, "what to press, not what to call"
    assert [each.description for each in made.saving.buttons.children[3:]] == ["Overwrite file", "Reload file"]
    assert job.path.read_text(encoding="utf-8") == by_hand
    made.saving.theirs.click()
    assert made.case.base["long_reach"] == 720
    made.fields["long_reach"].box.value = "715 mm"
    job.path.write_text(by_hand.replace("720 mm", "730 mm"), encoding="utf-8")
    made.saving.save.click()
    made.saving.mine.click()
    assert Job.open(job.path).case("stop").base["long_reach"] == 715


def test_a_file_broken_or_gone_meanwhile_is_told_in_a_sentence(job: Job) -> None:
    made = panel(job=job, part="stop")
    whole = job.path.read_text(encoding="utf-8")
    made.fields["long_reach"].box.value = "710 mm"
    job.path.write_text(whole.replace("[parts.stop]", "[parts.stop"), encoding="utf-8")
    for button in (made.saving.save, made.saving.mine, made.saving.theirs, made.saving.reset):
        button.click()
        assert "is not TOML" in made.saving.message.value
    job.path.unlink()
    made.fields["long_reach"].box.value = "711 mm"
    made.saving.save.click()
    assert "is gone from its folder" in made.saving.message.value
    assert "force" not in made.saving.message.value
    made.saving.mine.click()
    assert Job.open(job.path).case("stop").base["long_reach"] == 711


def test_export_writes_a_sheet_of_what_is_shown(job: Job) -> None:
    made = panel(job=job, part="stop")
    made.fields["push"].box.value = "75 N"
    made.saving.export.click()
    (sheet,) = Path("sheets").glob("*.html")
    text = sheet.read_text(encoding="utf-8")
    assert str(sheet) in made.saving.message.value
    assert "75 N" in text
    assert "Test &lt;bench&gt;" in text
    assert "<script" not in text


def test_the_static_view_holds_the_whole_sheet_and_no_script(stop: Panel) -> None:
    static_view = stop.static_view.html()
    assert "<svg" in static_view
    assert "<math" in static_view
    assert answered(stop.case, "tip_error", stop.display) in static_view
    assert "<script" not in static_view


def test_what_a_panel_needs() -> None:
    with pytest.raises(KitError, match=r"stop\.deflection"):
        panel("stop.deflexion")
    with pytest.raises(KitError, match="needs a model"):
        panel()


def test_a_panel_begins_with_the_display_of_its_job(job: Job) -> None:
    assert panel(job=job, part="stop").display.system == "mm"
    assert panel("stop.deflection", display=Display(system="in")).units.value == "in"
