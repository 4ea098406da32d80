"""How long a person waits from a moved slider to the changed shape in the page, at the size of the demo job.

Wished for: a median of 150 ms. Printed for reading; a busy machine is no stopwatch, so only a lost change fails.
"""

from pathlib import Path

import pytest

from tests.browser.conftest import browser, lab, server  # noqa: F401  (fixtures)
from tests.browser.lab import Lab
from tests.browser.latency import measure_latency, median_and_p95
from tests.browser.test_shape import opened

pytestmark = [pytest.mark.bench, pytest.mark.browser]

MOVES = 30
WATCHED = ".fw-shape .fw-slot svg"


@pytest.mark.parametrize(
    ("part", "given"),
    [("saw_sweep", "swing_left"), ("hood", "back"), ("drop_chute", "height"), ("wall_skin", "seam_allowance"),
     ("brow_skin", "seam_allowance"), ("bench_boards", "margin")],
)  # fmt: skip
def test_slider_to_shape(lab: Lab, tmp_path: Path, part: str, given: str) -> None:  # noqa: F811
    opened(lab, tmp_path, part)
    handle = lab.locator(f".fw-field-{given} .noUi-handle")
    handle.focus()
    times = measure_latency(lab.page, lambda _: handle.press("ArrowRight"), WATCHED, MOVES)
    median, p95 = median_and_p95(times)
    print(
        f"\n{part}, {given} to shape, {MOVES} moves: median {median:.0f} ms "
        f"({median / 150:.2f} of the 150 wished for), p95 {p95:.0f} ms"
    )
    assert lab.errors() == []
