"""Somebody who takes in the scan of the made machine in the turning view, by mouse and keyboard."""

import numpy as np
from numpy.typing import NDArray
from playwright.sync_api import Locator, Page, expect

from kit.geometry.mesh import Scan, cast
from tests.ui.intake.machine import as_scanned, machine

Array = NDArray[np.float64]
CLICKS, LOOKS = 3, 150


class Reader:
    """Somebody before the view, who knows the machine: its surface as it is shown now, and where a place of it is."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.surface = Scan(np.asarray(machine().vertices), np.asarray(machine().faces))
        self.scanned = True

    @property
    def canvas(self) -> Locator:
        return self.page.locator(".fw-turning canvas")

    def shown(self, place: Array) -> Array:
        """Where a place of the machine is in the axes of the view."""
        return as_scanned(place) if self.scanned else np.asarray(place)

    def aim(self, place: tuple[float, float, float]) -> tuple[float, float]:
        """Turn the view by keys until a place is seen, and return where it is on the canvas."""
        target = self.shown(np.array(place))
        surface = Scan(self.shown(self.surface.vertices), self.surface.faces)
        low, high = surface.vertices.min(axis=0), surface.vertices.max(axis=0)
        middle, reach = (low + high) / 2.0, np.linalg.norm(high - low) / 2.0
        self.canvas.press("Home")
        turns = ((right, over) for right in range(-17, 18) for over in range(-9, 7))
        for right, over in sorted(turns, key=lambda each: abs(each[0]) + abs(each[1])):
            a, e = np.radians(35 + 10 * right), np.radians(min(90, 25 + 10 * over))
            toward = np.array([np.sin(a) * np.cos(e), -np.cos(a) * np.cos(e), np.sin(e)])
            touch = cast(surface, middle + 4.0 * reach * toward + (target - middle), -toward)
            if touch is not None and np.linalg.norm(touch.point - target) < 1e-3 * reach:
                break
        else:
            raise AssertionError(f"no view shows {place}")
        for _ in range(abs(right)):
            self.canvas.press("ArrowRight" if right > 0 else "ArrowLeft")
        for _ in range(abs(over)):
            self.canvas.press("ArrowUp" if over > 0 else "ArrowDown")
        across = np.array([np.cos(a), np.sin(a), 0.0])
        box = self.canvas.bounding_box()
        assert box is not None
        small = 0.97 * min(box["width"], box["height"]) / 2.0
        off = (target - middle) / reach
        return box["width"] / 2 + small * off @ across, box["height"] / 2 - small * off @ np.cross(toward, across)

    def spot(self, name: str, place: tuple[float, float, float]) -> None:
        """Set a spot under a name by a click."""
        field = self.page.locator(".fw-spots").get_by_label("name of the next spot")
        field.fill(name)
        field.press("Tab")
        x, y = self.aim(place)
        self.canvas.click(position={"x": x, "y": y})
        expect(self.said("status")).to_contain_text(f"{name} is set at")

    def said(self, role: str) -> Locator:
        return self.page.locator(f".fw-intake .widget-html [role={role}]")

    def step(self, title: str) -> Locator:
        """Open the form of a step."""
        self.page.locator(".fw-intake .widget-toggle-button").get_by_text(title, exact=True).click()
        form = self.page.locator(".fw-step")
        expect(form.get_by_role("button", name=title, exact=True)).to_be_visible()
        return form

    def do(self, form: Locator) -> None:
        """Press a step's button until something else is said: on a page that still moves, a click may miss it."""
        said = self.said("status").or_(self.said("alert"))
        before = said.all_inner_texts()
        for _ in range(CLICKS):
            form.get_by_role("button").last.click()
            for _ in range(LOOKS):
                if said.all_inner_texts() not in (before, []):
                    return
                self.page.wait_for_timeout(100)
        raise AssertionError(f"still {before} is said")
