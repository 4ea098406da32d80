"""The plane through many gaps and the pads on it: against SciPy, by hand, and bad input in one sentence each."""

from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import curve_fit
from scipy.stats import chi2, norm

from kit.core.build import Build
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.core.resources import data_dir
from kit.drawing.space import View
from kit.job import Job
from kit.job.build import build

THREE = {"x_1": 0, "y_1": 0, "x_2": 600, "y_2": 0, "x_3": 0, "y_3": 600}
LEVEL = {"gap_1": 3, "gap_2": 3, "gap_3": 3, "u_1": 0.06, "u_2": 0.06, "u_3": 0.06, "u_edge": 0}
PADS = """
[parts.pads]
model = "level.pads"
[parts.pads.givens]
aim = "0.2 mm"
step = "0.1 mm"
made_error = "0 mm"
[parts.pads.shape]
takes = { plane = "bed" }
feet = [
    { name = "a", x = "0 mm", y = "0 mm" },
    { name = "b", x = "400 mm", y = "0 mm" },
    { name = "c", x = "400 mm", y = "300 mm" },
    { name = "d", x = "0 mm", y = "300 mm" },
]
"""


def job(folder: Path, shape: str = "", givens: dict[str, float] | None = None, more: str = "") -> Job:
    told = "\n".join(f'{name} = "{value} mm"' for name, value in (THREE | LEVEL | (givens or {})).items())
    path = folder / "job.toml"
    path.write_text(
        f'format = 1\n[parts.bed]\nmodel = "level.plane"\n[parts.bed.givens]\n{told}\n'
        f"[parts.bed.shape]\n{shape}\n{more}"
    )
    return Job.open(path)


def bed(folder: Path, shape: str = "", givens: dict[str, float] | None = None) -> Build:
    found = build(job(folder, shape, givens), "bed")
    assert found is not None
    return found


def test_gaps_of_the_page_that_nobody_measured_stand_in_only_as_long_as_fewer_than_three_were(tmp_path: Path) -> None:
    """Three depths of 5 mm lie in the plane of 5 mm, whatever the page's examples are."""
    rows = [f'{{ x = "{x} mm", y = "{y} mm", depth = "5 ± 0.1 mm" }}' for x, y in ((0, 0), (600, 0), (0, 600))]
    path = tmp_path / "own.toml"

    def built(gaps: list[str], givens: str = "") -> Build:
        listed = ", ".join(gaps)
        path.write_text(f'format = 2\n[parts.bed]\nmodel = "level.plane"\ngaps = [{listed}]\n{givens}')
        found = build(Job.open(path), "bed")
        assert found is not None
        return found

    whole = built(rows)
    assert whole.number("gaps").base == 3
    assert whole.number("depth").base == pytest.approx(5.0, abs=1e-9)
    assert "3 were not measured but are examples" in whole.cautions[0]
    one = built(rows[:2], '[parts.bed.givens]\ngap_1 = "5 mm"')
    assert one.number("gaps").base == 3
    assert "2 were not measured but are examples" in one.cautions[0]
    few = built(rows[:2])
    assert few.number("gaps").base == 5
    assert few.cautions == ()


def test_three_gaps_are_the_model(tmp_path: Path) -> None:
    found, case = bed(tmp_path), job(tmp_path).case("bed")
    assert found.number("depth").base == pytest.approx(case.base["depth"], rel=1e-9)
    assert found.number("u").base == pytest.approx(case.base["u"], rel=1e-9)
    assert [held.name for held in found.checks] == ["sure_of_all"]


def test_the_demo_s_seven_gaps_against_curve_fit() -> None:
    job = Job.open(data_dir() / "boatshed.toml")
    found, v = build(job, "bed_plane"), job.case("bed_plane").base
    assert found is not None
    at = np.array([(v[f"x_{i}"], v[f"y_{i}"]) for i in (1, 2, 3)] + [(60, 500), (640, 500), (350, 40), (350, 280)])
    z = np.array([*(v[f"gap_{i}"] for i in (1, 2, 3)), 3.21, 2.83, 2.50, 2.72])
    u = np.array([*(v[f"u_{i}"] for i in (1, 2, 3)), *[0.065] * 4])
    foot = np.array([v["foot_x"], v["foot_y"]])
    terms, covariance = curve_fit(
        lambda p, z0, sx, sy: z0 + sx * (p[0] - foot[0]) + sy * (p[1] - foot[1]), at.T, z, (0, 0, 0), u, True
    )
    assert found.number("depth").base == pytest.approx(terms[0], rel=1e-6)
    assert found.number("u").base == pytest.approx(np.hypot(np.sqrt(covariance[0, 0]), v["u_edge"]), rel=1e-5)
    off = (z - terms[0] - (at - foot) @ terms[1:]) / u
    assert found.number("misfit").base == pytest.approx(off @ off, rel=1e-5)
    assert found.number("chance").base == pytest.approx(1 - chi2.cdf(off @ off, 4), rel=1e-5)


def test_a_bed_that_is_not_flat_is_told(tmp_path: Path) -> None:
    found = bed(tmp_path, 'gaps = [{ x = "600 mm", y = "600 mm", depth = "3.6 mm", u = "0.06 mm" }]')
    assert not found.ok
    # of four corners of a square one is 0.6 mm off: each keeps a quarter of it, so 0.6/(2 × 0.06), squared, is left
    assert found.number("misfit").base == pytest.approx(25)
    flat = found.checks[1]
    assert not flat.ok
    assert "the gaps leave one plane by up to 0.150 mm" in flat.words()
    assert "measure the gap that is farthest off again" in flat.words()


def test_uncertainty_may_come_with_the_depth(tmp_path: Path) -> None:
    stated = bed(tmp_path, 'gaps = [{ x = "600", y = "600", depth = "3.1 mm", u = "0.05 mm" }]')
    within = bed(tmp_path, 'gaps = [{ x = "600", y = "600", depth = "3.1 ± 0.1 mm" }]')
    assert within.number("u").base == stated.number("u").base


def test_two_gaps_only_are_told(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    two = 'gap_1 = "3 mm"\ngap_2 = "3.1 mm"'
    path.write_text(f'format = 1\n[parts.bed]\nmodel = "level.plane"\n[parts.bed.givens]\n{two}\n')
    found = build(Job.open(path), "bed")
    assert found is not None
    assert not found.ok
    assert found.checks[0].words().startswith("gaps are stated at places 1 and 2 only")
    assert "state x_3, y_3 and gap_3" in found.checks[0].words()


@pytest.mark.parametrize(
    ("shape", "told"),
    [
        ('gaps = [{ x = "1 mm", y = "2 mm" }]', "gaps, number 1: depth is not stated"),
        ('gaps = [{ x = "1 mm", y = "2 mm", depth = "3 mm" }]', "gap 4 has no uncertainty"),
        ('gaps = [{ x = "1 mm", y = "2 mm", depth = "3 mm", u = "0 mm" }]', "u is 0 mm; allowed is 0.001 mm"),
        ('gaps = [{ x = "1 mm", y = "2 N", depth = "3 mm", u = "1 mm" }]', "a force"),
        ('gaps = ["3 mm"]', "gaps, number 1: gaps is '3 mm'; write a table"),
        ('gap = ["3 mm"]', "unknown input 'gap'; did you mean 'gaps'"),
    ],
)
def test_what_is_no_gap_gets_one_sentence(tmp_path: Path, shape: str, told: str) -> None:
    with pytest.raises(KitError, match="part bed") as error:
        bed(tmp_path, shape)
    assert told in str(error.value)
    assert "\n" not in str(error.value)


def test_pads_on_a_leaning_bed_by_hand(tmp_path: Path) -> None:
    """1 mm deeper along 1000 mm of x: 3.00 and 3.40 mm at the feet, and 0.2 mm above the line each."""
    found = build(job(tmp_path, "", {"gap_2": 3.6}, PADS), "pads")
    assert found is not None
    rows = found.rows("Pads").rows
    assert [row[0] for row in rows] == list("abcd")
    assert [row[1] for row in rows] == ["3.00 mm", "3.40 mm", "3.40 mm", "3.00 mm"]
    assert [row[4] for row in rows] == ["3.20 mm", "3.60 mm", "3.60 mm", "3.20 mm"]
    u = 0.06  # at foot a, which stands on a measured place, of a band of 0.4 mm
    assert rows[0][6] == f"{100 * norm.cdf(-0.2 / u):.1f} %"
    assert rows[0][7] == f"{100 * norm.sf(0.2 / u):.1f} %"
    assert found.number("twist").base == pytest.approx(0, abs=1e-12)
    assert found.ok


def test_steps_are_shared_so_that_nothing_rocks(tmp_path: Path) -> None:
    """Wanted are 3.25, 3.26, 3.24 and 3.23 mm; each rounded by itself, foot b alone would stand 0.1 mm high or so."""
    lean = {"gap_1": 3.05, "gap_2": 3.065, "gap_3": 3.01}
    found = build(job(tmp_path, "", lean, PADS), "pads")
    assert found is not None
    heights = [float(row[4].split()[0]) for row in found.rows("Pads").rows]
    assert heights[0] - heights[1] + heights[2] - heights[3] == pytest.approx(0, abs=1e-9)
    assert found.number("twist").base <= 0.05


def test_the_demo_s_pads_are_all_likely_and_stand() -> None:
    for name, part in (("boatshed", "saw_pad"), ("schoolshop", "table_pad")):
        found = build(Job.open(data_dir() / f"{name}.toml"), part)
        assert found is not None
        assert found.ok, name
        assert len(found.rows("Pads").rows) == 4


def test_pads_without_feet_make_nothing(tmp_path: Path) -> None:
    found = build(job(tmp_path, more='[parts.pads]\nmodel = "level.pads"\n'), "pads")
    assert found == Build(inputs=found.inputs if found else "")


@pytest.mark.parametrize(
    ("was", "told", "said"),
    [
        ('takes = { plane = "bed" }', "", "link the part that fitted the gaps"),
        ('x = "400 mm", y = "300 mm"', 'x = "800 mm", y = "0 mm"', None),
        (
            '{ name = "d", x = "0 mm", y = "300 mm" },',
            '{ x = "0 mm", y = "300 mm" },',
            "feet, number 4: name is not stated",
        ),
        ('name = "d", x = "0 mm"', 'name = "d", x = "0 kg"', "a mass"),
    ],
)
def test_feet_that_cannot_be(tmp_path: Path, was: str, told: str, said: str | None) -> None:
    text = PADS.replace(was, told)
    assert text != PADS
    if said is None:  # three feet in a line and one beside it still make a plane
        assert build(job(tmp_path, more=text), "pads") is not None
        return
    with pytest.raises(KitError) as error:
        build(job(tmp_path, more=text), "pads")
    assert said in str(error.value)


def test_all_feet_in_one_line(tmp_path: Path) -> None:
    text = PADS.replace('y = "300 mm"', 'y = "0 mm"').replace(
        'x = "0 mm", y = "0 mm" },\n]', 'x = "9 mm", y = "0 mm" },\n]'
    )
    with pytest.raises(KitError, match="four feet stand in one line"):
        build(job(tmp_path, more=text), "pads")


def test_pictures_show_every_gap_and_foot(tmp_path: Path) -> None:
    found = bed(tmp_path, 'gaps = [{ x = "600", y = "600", depth = "3.1 mm", u = "0.05 mm" }]')
    view = found.picture("space").draw(Display())
    assert isinstance(view, View)
    assert [mark.text for mark in view.marks] == ["1", "2", "3", "4", "foot"]
    found.picture("plan").draw(Display(system="in"))
