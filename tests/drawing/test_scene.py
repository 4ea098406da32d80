"""Building a scene: what is refused, what is kept, magnification steps."""

from collections.abc import Callable
from math import inf, nan

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.drawing.page import model_box
from kit.drawing.primitives import Polyline
from kit.drawing.scene import Layer, Scene, View, ratio

BAD: dict[str, Callable[[Scene, float], None]] = {
    "line on layer 'hidden'": lambda s, x: s.line((0, 0), (x, 0), Layer.HIDDEN),
    "polyline on layer 'outline'": lambda s, x: s.polyline([(0, 0), (1, x)]),
    "arc": lambda s, x: s.arc((0, 0), 1, 0, x),
    "circle": lambda s, x: s.circle((0, 0), x),
    "hatch": lambda s, x: s.hatch([[(0, 0), (1, 0), (x, 1)]]),
    "text 'words'": lambda s, x: s.text((x, 0), "words"),
    "dimension '5 mm'": lambda s, x: s.dim((0, 0), (5, x), 8, "5 mm"),
    "angle '90°'": lambda s, x: s.angle((0, 0), (1, x), (0, 1), 8, "90°"),
    "leader 'note'": lambda s, x: s.leader((0, 0), (x, 1), "note"),
    "arrow 'F'": lambda s, x: s.arrow((0, 0), x, "F"),
    "moment 'M'": lambda s, x: s.moment((x, 0), "M"),
}


@pytest.mark.parametrize("number", [nan, inf, -inf])
@pytest.mark.parametrize("name", BAD)
def test_a_number_that_is_not_finite_names_its_primitive(name: str, number: float) -> None:
    with pytest.raises(KitError, match=f"{name}.* not a finite number"):
        BAD[name](Scene("", ""), number)


def test_opposite_infinities_do_not_cancel() -> None:
    with pytest.raises(KitError, match="not a finite number"):
        Scene("", "").line((inf, 0), (-inf, 0))


@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda s: s.polyline([(0, 0)]), "1 point"),
        (lambda s: s.hatch([[(0, 0), (1, 1)]]), "needs at least 3"),
        (lambda s: s.hatch([[(0, 0), (1, 1), (1, 0)]], spacing=0), "line spacing of 0 mm"),
        (lambda s: s.circle((0, 0), -1), "radius of -1 mm"),
        (lambda s: s.angle((0, 0), (1, 0), (0, 1), 0, ""), "radius of 0 mm"),
        (lambda s: s.text((0, 0), "x", "over"), "'over'; allowed are 'center'"),
        (lambda s: s.dim((0, 0), (1, 0), 5, "x", along="slanted"), "'slanted'; allowed are 'aligned'"),
        (lambda s: s.rectangle((0, 0), (1, 1), fill="red"), "'red'; allowed are 'light'"),
        (lambda s: s.view("Detail", magnify=0), "'Detail' is magnified 0 times"),
    ],
)
def test_what_makes_no_sense_is_refused_in_words(build: Callable[[Scene], object], words: str) -> None:
    with pytest.raises(KitError, match=words):
        build(Scene("", ""))


def test_points_may_be_an_array() -> None:
    scene = Scene("", "")
    scene.polyline(np.array([[0, 0], [3, 4]]))
    (item,) = scene.items
    assert isinstance(item, Polyline)
    assert item.points == ((0.0, 0.0), (3.0, 4.0))
    assert type(item.points[0][0]) is float


def test_the_box_around_a_view_in_model_millimeters() -> None:
    scene = Scene("", "")
    assert model_box(scene) is None
    scene.circle((10, 0), 5)
    scene.line((0, -20), (1, 1))
    assert model_box(scene) == (0, -20, 15, 5)
    detail = scene.view("Detail")
    detail.arc((0, 0), 2, 0, 3.2)  # a little more than half a turn reaches both sides and the top
    box = model_box(detail)
    assert box is not None
    assert box[0] == pytest.approx(-2)
    assert box[2:] == pytest.approx((2, 2))
    assert box[1] == pytest.approx(-0.11675, abs=1e-5)  # 2·sin(3.2)


@pytest.mark.parametrize(
    ("wanted", "got"),
    [(1, 1), (1.99, 1), (2, 2), (4.9, 2), (5, 5), (9.99, 5), (10, 10), (37, 20), (0.5, 0.5), (0.49, 0.2),
     (0.1, 0.1), (1000, 1000), (0, 1), (-3, 1), (nan, 1), (inf, 1)],
)  # fmt: skip
def test_magnifications_step_1_2_5(wanted: float, got: float) -> None:
    assert ratio(wanted) == pytest.approx(got, rel=1e-12)


def test_a_view_is_a_drawing_surface_of_its_own() -> None:
    scene = Scene("", "")
    detail = scene.view("Detail", magnify=2, below=True)
    detail.line((0, 0), (1, 1))
    assert isinstance(detail, View)
    assert not scene.items
    assert scene.views == [scene, detail]
