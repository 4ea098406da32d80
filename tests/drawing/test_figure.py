"""Finding the drawing function of a model by its name."""

import sys
from pathlib import Path

import pytest

import kit.drawing.figures
from kit.drawing import figure
from kit.errors import KitError

EXAMPLE = """
from kit.drawing.scene import Scene

def draw(v, d):
    scene = Scene("Shelf", "A shelf.")
    scene.rectangle((0, 0), (v["length"], v["depth"]))
    return scene
"""


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A figure module for a made-up model ``shelf.plain`` beside the kit's own."""
    (tmp_path / "shelf_plain.py").write_text(EXAMPLE, encoding="utf-8")
    monkeypatch.setattr(kit.drawing.figures, "__path__", [*kit.drawing.figures.__path__, str(tmp_path)])
    monkeypatch.delitem(sys.modules, "kit.drawing.figures.shelf_plain", raising=False)


@pytest.mark.usefixtures("shelf")
def test_a_model_finds_its_figure() -> None:
    draw = figure("shelf.plain")
    scene = draw({"length": 300.0, "depth": 20.0}, None)  # type: ignore[arg-type]
    assert scene.title == "Shelf"
    assert len(scene.items) == 1


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize("name", ["shelf.plane", "shelf.plain.draw", "self.plain"])
def test_a_wrong_name_lists_near_ones(name: str) -> None:
    with pytest.raises(KitError, match=r"no figure for a model .* did you mean .*'shelf\.plain'"):
        figure(name)


@pytest.mark.parametrize("name", ["", "../../os", "os.path", "__init__", "..", "zzz"])
def test_names_that_are_no_model_are_refused(name: str) -> None:
    with pytest.raises(KitError, match="no figure for a model"):
        figure(name)
