"""The one stylesheet of sheets and panels, with the math font embedded."""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from importlib.resources import files


@cache
def font_face() -> str:
    """Return the rule that embeds the math font (see font/SOURCE.md)."""
    data = b64encode((files("kit.sheet") / "font" / "math.woff2").read_bytes()).decode("ascii")
    return f'@font-face{{font-family:"Fitwright Math";src:url(data:font/woff2;base64,{data}) format("woff2")}}'


@cache
def stylesheet() -> str:
    """Return the rules for `.fw-sheet` and `.fw-panel`."""
    return (files("kit.sheet") / "style.css").read_text(encoding="utf-8")


def panel_style() -> str:
    """Return a style element for a panel."""
    return f"<style>{font_face()}{stylesheet()}</style>"


def static_style() -> str:
    """Return a style element for a sheet's content inside another page."""
    return panel_style()
