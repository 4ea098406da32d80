"""The page of a cloth skin against the numeric development: strain on a ball, facets, offset, rail and hem."""

import numpy as np
import pytest

from kit.geometry.development.flatten import flatten
from kit.geometry.development.mesh import grid_triangles, panel_of
from kit.geometry.development.primitives import arc
from kit.geometry.development.strain import thread_strain
from kit.subjects import model
from kit.subjects.cloth.geometry.sewing import lockstitch_thread, staple_count

SKIN = model("cloth.skin")


def zone(ball: float, width: float, length: float, columns: int, rows: int) -> np.ndarray:
    """Points of a long panel along the equator of a ball, row by row."""
    angle, high = np.meshgrid(
        np.linspace(-length, length, columns + 1) / (2 * ball),
        np.linspace(-width, width, rows + 1) / (2 * ball),
    )
    points = np.stack([np.cos(high) * np.sin(angle), -np.cos(high) * np.cos(angle), np.sin(high)], axis=-1)
    return ball * points.reshape(-1, 3)


@pytest.mark.parametrize(("width", "share"), [(300.0, 6.0), (500.0, 4.0)])
def test_strain_of_a_long_panel_on_a_ball_agrees_with_the_flattening(width: float, share: float) -> None:
    case = SKIN.at(double_radius="1500 mm", panel_width=f"{width} mm")
    columns, rows = 48, 20
    panel = panel_of(zone(1500.0, width, share * width, columns, rows), grid_triangles(columns, rows))
    flat = flatten(panel)
    ahead = flat.flat[panel.triangles].mean(axis=1) - flat.flat.mean(axis=0)
    _, _, axes = np.linalg.svd(flat.flat - flat.flat.mean(axis=0), full_matrices=False)
    along, beside = ahead @ axes[0], np.abs(ahead @ axes[1])
    strain = thread_strain(flat, float(np.arctan2(axes[0, 1], axes[0, 0]))).warp
    here = np.abs(along) < 0.2 * width  # away from the ends
    outermost = here & (beside > 0.5 * width * (1 - 1.2 / rows))
    innermost = here & (beside < 0.1 * width)
    # The outermost triangles lie a little inside of the edge; their strain is a few percent below the edge's.
    assert -strain[outermost].mean() == pytest.approx(case.base["strain"], rel=0.10)
    assert strain[innermost].mean() == pytest.approx(case.base["middle"], rel=0.10)


def test_facets_agree_with_the_sampling_of_curves() -> None:
    case = SKIN.at(bend_radius="300 mm", bend_turn="80 deg", chord_error="0.15 mm")
    turn = np.radians(80.0)
    ends = [300 * np.array([np.cos(at), np.sin(at), 0.0]) for at in (0.0, turn / 2, turn)]
    grid = arc(ends[0], ends[1], ends[2]).grid(0.15)
    assert len(grid) - 1 == pytest.approx(case.base["facets"], abs=1)
    exact = 300 * (1 - np.cos(turn / 2 / case.base["facets"]))
    assert case.base["error_met"] == pytest.approx(exact)
    assert exact <= 0.15


def test_sewing_agrees_with_the_counting_on_shapes() -> None:
    case = SKIN.at(cloth_thickness="0.4 mm", stitch="2.5 mm", seam_length="731 mm", thread_waste="0 %")
    assert case.base["thread"] == pytest.approx(lockstitch_thread(731.0, 0.8, 2.5))
    case = SKIN.at(stapled_length="731 mm", staple_step="45 mm")
    assert case.base["staples"] == staple_count(731.0, 45.0)


def test_a_second_layer_goes_round_everything_one_thickness_farther_out() -> None:
    near, far = (SKIN.at(layer=layer, edges=3) for layer in ("on the frame", "over another skin"))
    c = near.base["cloth_thickness"]
    assert far.base["offset"] - near.base["offset"] == pytest.approx(c)
    assert far.base["staple_margin"] - near.base["staple_margin"] == pytest.approx(1.5 * np.pi * c)
