"""Two jobs side by side: what is told differs, and nothing else is."""

from collections.abc import Callable
from pathlib import Path

import pytest

from kit import model
from kit.cli import main
from kit.job import Job
from kit.sheet.comparison import comparison
from kit.station.compare import Comparison, compare_jobs

Write = Callable[..., Job]
STOP = """
[parts.stop]
model = "stop.deflection"
title = "A stop <long>"
rib_wood = "{wood}"
[parts.stop.givens]
long_reach = "{reach}"
"""
CLAMP = """
[parts.after]
model = "knob.clamp"
[parts.after.givens]
stiffness = {{ from = "stop.tip_stiffness" }}
"""
HEAD = 'format = 2\n[job]\nname = "{name}"\nunits = "{units}"\n'


@pytest.fixture
def written(tmp_path: Path) -> Write:
    def write(name: str, text: str, units: str = "mm", **values: str) -> Job:
        values = {"reach": "640 ± 1 mm", "wood": "hard maple"} | values
        path = tmp_path / f"{name}.toml"
        path.write_text((HEAD + text).format(name=name, units=units, **values), encoding="utf-8")
        return Job.open(path)

    return write


def told(found: Comparison, part: str) -> dict[str, tuple[str, str, str]]:
    (only,) = (each for each in found.parts if each.id == part)
    return {each.name: (each.first, each.second, each.by) for each in only.changes}


def name(quantity: str) -> str:
    return model("stop.deflection").called(quantity)


def test_a_job_is_like_itself_whatever_its_name_and_units(written: Write) -> None:
    found = compare_jobs(written("a", STOP), written("b", STOP, units="in", reach="25 25/128 ± 5/127 in"))
    assert found.only_first == found.only_second == ()
    assert [part.id for part in found.parts] == ["stop"]  # 25 25/128 in is 639.96 mm
    names = ("long_reach", "play_tip", "bending_tip", "shear_tip", "shear_share", "tip_error", "tip_stiffness")
    assert name("long_reach") in set(told(found, "stop")) <= {*map(name, names)}
    found = compare_jobs(written("a", STOP), written("c", STOP, units="in"))
    assert (found.parts, found.same) == ((), 1)


def test_what_is_given_and_what_comes_of_it_is_told_also_downstream(written: Write) -> None:
    found = compare_jobs(written("a", STOP + CLAMP), written("b", STOP + CLAMP, reach="740 ± 1 mm", wood="red oak"))
    stop, after = told(found, "stop"), told(found, "after")
    assert stop[name("long_reach")] == ("640.0 ± 1 mm", "740.0 ± 1 mm", "+100.0 mm")
    assert stop[name("rib_wood")] == ("hard maple", "red oak", "")
    assert float(stop[name("tip_stiffness")][0].split()[0]) > float(stop[name("tip_stiffness")][1].split()[0])
    assert stop[name("tip_stiffness")][2].startswith("-")
    assert after[model("knob.clamp").called("stiffness")][2].startswith("-")
    assert name("long_reach") not in after


def test_parts_and_models_that_only_one_has_are_told(written: Write) -> None:
    other = '[parts.stop]\nmodel = "scale.cursor"\n'
    found = compare_jobs(written("a", STOP + CLAMP), written("b", other))
    assert found.only_first == ("after",)
    assert told(found, "stop")["model"][:2] == ("stop.deflection", "scale.cursor")


def test_lists_are_told_entry_by_entry_and_their_origin_is_no_change(written: Write) -> None:
    plane = '[parts.plane]\nmodel = "level.plane"\ngaps = [{{ x = "60 mm", y = "500 mm", depth = {depth} }}]\n'
    one = written("a", plane, depth='"3.2 mm"')
    same = written("b", plane, depth='{ value = "3.2 mm", measured = 2026-05-02 }')
    assert not [each for part in compare_jobs(one, same).parts for each in part.changes if each.kind == "list"]
    assert told(compare_jobs(one, written("c", plane, depth='"3.4 mm"')), "plane")["gaps 1, depth"] == (
        "3.2 mm",
        "3.4 mm",
        "",
    )


def test_a_part_that_cannot_be_computed_is_told_with_its_fault(written: Write) -> None:
    found = compare_jobs(written("a", STOP), written("b", STOP, reach="9 km"))
    assert "long_reach" in found.parts[0].fault
    assert "Not compared further" in comparison(found)


def test_the_command_and_the_page_tell_the_same(written: Write, capsys: pytest.CaptureFixture[str]) -> None:
    one, other = written("a", STOP), written("b", STOP, reach="740 ± 1 mm")
    assert main(["compare", str(one.path), str(other.path)]) == 0
    out, html = capsys.readouterr().out, comparison(compare_jobs(one, other))
    assert f"given    {name('long_reach')}: 640.0 ± 1 mm → 740.0 ± 1 mm  (+100.0 mm)" in out
    assert "<td>640.0 ± 1 mm</td><td>740.0 ± 1 mm</td><td>+100.0 mm</td>" in html
    assert "A stop &lt;long&gt;" in html
    assert main(["compare", str(one.path), "none.toml"]) == 2
    assert "none.toml" in capsys.readouterr().err
    assert main(["compare", str(one.path), str(one.path)]) == 0
    assert "nothing differs; 1 part is the same in both" in capsys.readouterr().out


def test_mass_and_cost_of_the_whole_are_told(written: Write) -> None:
    shelf = '[parts.shelf]\nmodel = "support.shelf"\n[parts.shelf.givens]\nspan = "{span}"\n'
    boards = '[parts.boards]\nmodel = "cutting.boards"\n[parts.boards.givens]\nprice = {price}\n'
    one = written("a", shelf + boards, span="500 mm", price="40")
    found = compare_jobs(one, written("b", shelf + boards, span="1000 mm", price="50"))
    mass, cost = found.whole
    # twice as long is twice as heavy, told as a bathroom scale weighs; as many boards for a quarter more
    kilograms = [float(each.removesuffix(" kg")) for each in (mass.first, mass.second)]
    assert kilograms[1] == pytest.approx(2 * kilograms[0], abs=0.15)
    assert mass.by == f"+{kilograms[1] - kilograms[0]:.1f} kg"
    assert compare_jobs(one, written("c", shelf + boards, span="500.1 mm", price="40")).whole == ()
    assert float(cost.second) == pytest.approx(1.25 * float(cost.first))
    assert "The whole job" in comparison(found)
    assert compare_jobs(one, one).whole == ()
