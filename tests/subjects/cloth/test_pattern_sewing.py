"""With what cloth is sewn, and in what order and direction: the plan that stands on its sheet."""

import pytest

from kit.core.tables import table
from kit.job import Job
from tests import DATA


@pytest.fixture(scope="module")
def job() -> Job:
    return Job.open(DATA / "boatshed.toml")


def parts(job: Job) -> list[str]:
    return [id for id, part in job.parts.items() if part.model in ("cloth.skin", "cloth.chute")]


def test_needles_grow_with_thread_and_cloth() -> None:
    rows = list(table("needles"))
    for name in ("blade", "thread_size", "cloth_most"):
        values = [row[name] for row in rows]
        assert values == sorted(set(values))
    for row in rows:  # NM is the blade in hundredths of a millimeter
        assert float(row.id.removeprefix("NM ").partition(" / ")[0]) / 100 == pytest.approx(row["blade"])
    assert all(row.entry("blade").source for row in rows)


def test_the_needle_is_the_finest_that_is_usual_for_the_cloth(job: Job) -> None:
    for id in parts(job):
        build, case = job.build(id), job.case(id)
        assert build is not None
        rows = {row[0]: row for row in build.rows("Needle, thread and stitch").rows}
        cloth = case.table("cloths").row(case.picks["cloth"])["mass_per_area"]
        fitting = [row for row in table("needles") if row["cloth_most"] >= cloth]
        assert rows["needle"][1] == fitting[0].id
        assert "no source" in rows["needle"][2]
        assert rows["thread"][1] == "tex 90"  # 0.09 g/m is 90 g of 1000 m, for a cloth of 18 oz/yd², 610 g/m²
        # textilecalculations.com: 2 + 2 T S and 4 + 2 T S, read
        more = 4 * case.base["cloth_thickness"] / case.base["stitch"]
        assert rows["thread, lockstitch"][1] == f"{2 + more:.2f} times the seam"
        assert rows["thread, chainstitch of two threads"][1] == f"{4 + more:.2f} times the seam"


def test_every_seam_has_a_way_and_a_reason_and_none_is_caught(job: Job) -> None:
    for id in parts(job):
        build = job.build(id)
        assert build is not None
        plan, seams = build.rows("Sewing plan").rows, build.rows("Seams").rows
        assert [row[:2] for row in plan] == [row[:2] for row in seams]
        assert all(row[2] and row[3] for row in plan)
        kinds = ["dart" if "tip" in row[2] else "hem" if "crosses" in row[3] else "seam" for row in plan]
        assert kinds == sorted(kinds, key=("dart", "seam", "hem").index), "darts first, hems last"
        for row, seam in zip(plan, seams, strict=True):
            laid = next((cell for cell in seam if cell.startswith("toward ")), "")
            assert laid.removeprefix("toward ") in row[3]
