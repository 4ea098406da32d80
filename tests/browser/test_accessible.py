"""A slider of a panel says to those who do not see it what it moves."""

import re

from playwright.sync_api import expect

from tests import NOTEBOOKS
from tests.browser.lab import Lab


def test_a_slider_has_a_name(lab: Lab) -> None:
    lab.open(NOTEBOOKS / "85_shelves.ipynb")
    lab.run_all()
    expect(lab.locator(".fw-live .noUi-handle").first).to_have_attribute("aria-label", re.compile("arrow keys move it"))
    assert lab.errors() == []
