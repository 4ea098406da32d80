"""What was measured beside what was predicted, by similar triangles and a table of the normal distribution."""

from collections.abc import Callable

import pytest

from kit.cli import main
from kit.job import Job
from kit.job.check import check
from kit.sheet.station_pages import BUILT, station_pages
from kit.station.as_built import as_built, rows

Write = Callable[..., Job]
CURSOR = """
[parts.eye]
model = "scale.cursor"
title = "An eye <over> a line"
[parts.eye.built]
parallax = { value = "MEASURED", measured = 2026-06-06, how = "two lines seen from both ends" }
[parts.eye.givens]
eye_height = "500 ± 0 mm"
eye_offset = "50 ± 0 mm"
gap = "1 ± 0.3 mm"
line = "underside"
"""


def test_a_difference_is_told_by_its_normalized_error_and_by_what_would_explain_it(stated: Write) -> None:
    (found,) = as_built(stated(CURSOR.replace("MEASURED", "0.15 ± 0.03 mm"))).found
    # Similar triangles: 50 · 1 / 499 = 0.1002 mm; the gap's even ± 0.3 mm is u = 0.3 / √3 = 0.1732 mm, over 10 and
    # doubled 0.0348 mm. 0.15 − 0.1002 = 0.0498 over √(0.0348² + 0.03²) = 0.0459 (ISO/IEC 17043, E_n).
    assert found.beside.normalized == pytest.approx(1.084, abs=0.002)
    assert not found.beside.agree
    # slope 50 · 500 / 499² = 0.1004, so the gap alone is off by 0.496 mm, 2.864 u; two-sided 0.42 % of a normal
    # distribution lie beyond (Φ(2.86) = 0.99788, any table)
    (gap,) = found.beside.explained
    assert gap.off == pytest.approx(0.496, abs=0.001)
    assert gap.chance == pytest.approx(0.0042, abs=0.0001)


def test_what_agrees_needs_no_explanation(stated: Write, capsys: pytest.CaptureFixture[str]) -> None:
    job = stated(CURSOR.replace("MEASURED", "0.12 ± 0.03 mm"))
    ((part, cells),) = rows(as_built(job))
    assert part == "eye"
    assert cells[2] == "0.12 ± 0.03 mm (2026-06-06)"
    assert cells[-1] == "nothing needs to"
    assert main(["built", str(job.path)]) == 0
    assert "they agree" in capsys.readouterr().out
    assert check(job.path) == []


def test_the_book_and_the_command_tell_a_difference(stated: Write, capsys: pytest.CaptureFixture[str]) -> None:
    job = stated(CURSOR.replace("MEASURED", "0.15 ± 0.03 mm"))
    html = station_pages(job)[BUILT][1]
    assert main(["built", str(job.path)]) == 1
    out = capsys.readouterr().out
    for words in ("they do not agree", "off by +0.496 mm (less than 1 % likely)"):
        assert words in html
        assert words in out
    assert "An eye &lt;over&gt; a line" in html
    assert main(["built", str(stated('[parts.x]\nmodel = "scale.cursor"\n', "b").path)]) == 0
    assert "nothing of this job is stated as built" in capsys.readouterr().out


@pytest.mark.parametrize(("text", "words"), [("0.15 mm", "has no ±"), ("0.15 ± 0.1 kg", "kg"), ("about", "about")])
def test_what_cannot_be_compared_is_told(stated: Write, text: str, words: str) -> None:
    found = as_built(stated(CURSOR.replace("MEASURED", text)))
    assert found.found == ()
    assert words in found.faults[0]


def test_check_points_at_a_result_that_is_not_there(stated: Write) -> None:
    job = stated(CURSOR.replace("parallax =", "paralax =").replace("MEASURED", "0.15 ± 0.03 mm"))
    (fault,) = check(job.path)
    assert fault.line == 10
    assert "did you mean 'parallax'" in str(fault)
