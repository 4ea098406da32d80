"""Stills of views in space: what is nearer covers what is farther, text is safe, the same input gives the same text."""

from xml.etree import ElementTree

import numpy as np
import pytest
import trimesh
from scipy.spatial.transform import Rotation

from kit.core.errors import KitError
from kit.drawing.space import STANDARD, Camera, Line, Mark, Solid, View, view_svg
from kit.drawing.space.scene import thinned
from kit.drawing.space.svg import shaded
from tests.drawing.space_demo import BOX_FACES, box, nearest_solid, painted

FILLS = ["wood", "dark wood", "bench", "metal", "machine", "cloth", "air", "accent", "warn", "purple"]
WIDTH = 500


def check_against_rays(solids: list[Solid], camera: Camera) -> int:
    """Compare the painted picture with rays at a grid of pixels that are clear of every edge; return their number."""
    names = {shaded(solid.fill, tone): k for k, solid in enumerate(solids) for tone in range(24)}
    assert len({solid.fill for solid in solids}) == len(solids), "each solid has its own color"
    svg = view_svg(View(solids), camera, WIDTH, WIDTH, ids="t")
    every = np.concatenate([camera.project(solid.vertices)[:, :2] for solid in solids])
    low, high = every.min(axis=0), every.max(axis=0)
    scale = (WIDTH - 24) / max(high - low)
    pixels = np.array([(x, y) for x in range(14, WIDTH - 14, 7) for y in range(14, WIDTH - 14, 7)])

    def seen(shift: tuple[float, float]) -> np.ndarray:
        flat = (pixels + 0.5 + shift - WIDTH / 2) / scale * (1, -1) + (low + high) / 2
        return nearest_solid(solids, camera, flat)

    here = seen((0, 0))
    clear = np.all([seen(shift) == here for shift in ((1.5, 0), (-1.5, 0), (0, 1.5), (0, -1.5))], axis=0)
    found = painted(svg, names, pixels + 0.5)
    wrong = pixels[clear & (found != here)]
    assert len(wrong) == 0, f"{len(wrong)} of {clear.sum()} pixels, first {wrong[:3].tolist()}"
    return int((clear & (here >= 0)).sum())


def test_a_stack_is_painted_from_back_to_front() -> None:
    solids = [box(str(k), (-50 + 5 * k, 30 * k, -50), (50, 30 * k + 20, 50 - 9 * k), FILLS[k]) for k in (3, 1, 0, 2)]
    for camera in STANDARD.values():
        assert check_against_rays(solids, camera) > 300


def test_boards_that_hide_each_other_in_a_ring_are_cut() -> None:
    """Three boards, each over the next and under the one before: no order of the whole boards is right."""
    solids = []
    for k in range(3):
        tilt = Rotation.from_euler("zy", [120 * k, 12], degrees=True).as_matrix()
        # Each bar runs past the triangle's corner, low at one end and high at the other.
        base = Rotation.from_euler("z", 120 * k, degrees=True).as_matrix() @ (0, -40, 0)
        corners = np.asarray(box("", (-110, -14, -3), (110, 14, 3)).vertices) @ tilt.T + base
        solids.append(Solid(str(k), corners, BOX_FACES, FILLS[k]))
    for up in (90, 70, -80):
        assert check_against_rays(solids, Camera(10, up)) > 500


def test_boards_that_pierce_each_other_are_cut_where_they_meet() -> None:
    solids = [
        box("a", (-100, -10, -40), (100, 10, 40), "wood"),
        box("b", (-15, -80, -20), (15, 80, 20), "metal"),
        box("c", (-60, -30, -90), (-40, 30, 90), "cloth"),
    ]
    for camera in (STANDARD["corner"], Camera(-40, 50), Camera(160, -20)):
        assert check_against_rays(solids, camera) > 500


@pytest.mark.parametrize("seed", range(4))
def test_boards_thrown_together_look_as_rays_see_them(seed: int) -> None:
    random = np.random.default_rng(seed)
    solids = []
    for fill in FILLS:
        half = random.uniform((60, 20, 5), (150, 60, 12))
        turn = Rotation.random(random_state=random.integers(2**31)).as_matrix()
        corners = np.asarray(box("", -half, half).vertices) @ turn.T + random.uniform(-90, 90, 3)
        solids.append(Solid(fill, corners, BOX_FACES, fill))
    assert check_against_rays(solids, Camera(random.uniform(0, 360), random.uniform(-90, 90))) > 500


def test_a_hood_of_mitered_boards_and_a_curved_skin() -> None:
    cylinder = trimesh.creation.cylinder(radius=60, height=80, sections=40)
    cone = trimesh.creation.cone(radius=50, height=120, sections=32)
    solids = [
        Solid("tube", cylinder.vertices, np.asarray(cylinder.faces), "machine"),
        Solid("cone", cone.vertices + np.array((0, 0, 45)), np.asarray(cone.faces), "cloth"),
        box("left", (-120, -100, -60), (-105, 100, 90), "wood"),
        box("back", (-105, 85, -60), (105, 100, 90), "dark wood"),
        box("right", (105, -100, -60), (120, 100, 90), "warn"),
        box("bench", (-150, -130, -75), (150, 130, -60), "bench"),
    ]
    for camera in (*STANDARD.values(), Camera(-60, 40)):
        assert check_against_rays(solids, camera) > 500


def order_of(svg: str, first: str, second: str) -> bool:
    return svg.index(first) < svg.index(second)


def test_a_line_is_hidden_by_what_is_before_it_and_lies_over_what_is_behind() -> None:
    block = box("block", (-50, 0, -50), (50, 10, 50), "bench")
    face = shaded("bench", 17)  # turned straight to the eye: light falls at acos 0.73
    for depth, hidden in ((20, True), (-20, False), (0, False)):
        svg = view_svg(View([block], [Line("l", [(-40, depth, 0), (40, depth, 0)], "red")]), "front", ids="t")
        assert face in svg
        assert order_of(svg, "#B84A00", face) is hidden
    across = view_svg(View([block], [Line("l", [(-40, 20, 60), (-40, -20, 60), (40, -20, 60)], "red")]), "top", ids="t")
    assert across.count("#B84A00") == 1, "what nothing hides is one path"


def test_a_ghost_is_one_pale_group_over_what_is_behind_it() -> None:
    view = View(
        [
            box("back", (-50, 50, 0), (50, 60, 100), "wood"),
            box("front", (-50, -60, 0), (50, -50, 100), "dark wood"),
            box("ghost", (-30, -20, 0), (30, 20, 150), "ghost", opacity=0.3),
        ]
    )
    svg = view_svg(view, "front", ids="t")
    assert svg.count('<g opacity="0.3">') == 1
    assert order_of(svg, shaded("wood", 17), '<g opacity="0.3">')
    assert order_of(svg, '<g opacity="0.3">', shaded("dark wood", 17))
    assert view.words == "back, front, ghost (pale ghost)"


HOSTILE = "</title><script>alert(1)</script>&\"'"


def test_text_is_escaped() -> None:
    view = View(
        [box(HOSTILE, (0, 0, 0), (1, 1, 1))],
        [Line(HOSTILE, [(0, 0, 0), (1, 1, 1)])],
        [Mark(HOSTILE, (0, 0, 0))],
    )
    svg = view_svg(View(view.solids, view.lines, view.marks, HOSTILE), "corner", ids="t")
    assert "<script" not in svg
    root = ElementTree.fromstring(svg)
    assert root.find("title").text == HOSTILE  # type: ignore[union-attr]
    assert HOSTILE in "".join(root.itertext())
    assert not [name for element in root.iter() for name in element.attrib if name.startswith("on")]


def test_the_same_view_gives_the_same_text() -> None:
    def view() -> View:
        random = np.random.default_rng(5)
        return View([box(str(k), *np.sort(random.uniform(-9, 9, (2, 3)), axis=0)) for k in range(30)])

    texts = {view_svg(view(), "corner", ids="t") for _ in range(3)}
    assert len(texts) == 1


def test_words_stay_within_the_picture_and_off_each_other() -> None:
    marks = [Mark(f"corner number {k}", (x, 0, z)) for k, (x, z) in enumerate([(0, 0), (0, 90), (100, 0), (100, 90)])]
    marks += [Mark("middle", (50, 0, 45)), Mark("beside it", (51, 0, 45)), Mark("near it", (50, 0, 46))]
    root = ElementTree.fromstring(
        view_svg(View([box("b", (0, 0, 0), (100, 10, 90))], [], marks), "front", 500, ids="t")
    )
    boxes = [
        (float(word.attrib["x"]), float(word.attrib["y"]) - 90, len(word.text or "") * 58, 120)
        for word in root.iter("text")
    ]  # Arial at 12 px: capitals 8.6 px tall; letters 0.5 to 0.58 em wide on average (from memory)
    assert len(boxes) == 7
    for k, (x, y, wide, tall) in enumerate(boxes):
        assert 0 <= x <= x + wide <= 5000 + 1
        assert y >= 0
        for left, top, w, _ in boxes[:k]:
            assert x >= left + w or left >= x + wide or abs(y - top) >= tall - 5


def test_a_box_of_given_size_is_kept_and_filled() -> None:
    root = ElementTree.fromstring(view_svg(View([box("b", (0, 0, 0), (100, 10, 10))]), "front", 400, 300, ids="t"))
    assert root.attrib["viewBox"] == "0 0 4000 3000"
    path = max((p.attrib["d"] for p in root.iter("path")), key=len)
    assert path.startswith("M")
    flat = view_svg(View([box("b", (0, 0, 0), (100, 10, 10))]), "front", 400, ids="t")
    assert float(ElementTree.fromstring(flat).attrib["height"]) == 80  # a fifth of the width at least
    tall = view_svg(View([box("b", (0, 0, 0), (10, 10, 100))]), "front", 400, ids="t")
    assert float(ElementTree.fromstring(tall).attrib["height"]) == 300  # three quarters at most


def balls(sections: int) -> View:
    ball = trimesh.creation.uv_sphere(radius=100, count=[sections, sections])
    faces = np.asarray(ball.faces)
    return View(
        [
            Solid("a", ball.vertices, faces),
            Solid("b", ball.vertices + np.array((150, 50, 0)), faces, "ghost", 0.4),
        ]
    )


def test_two_thousand_faces_take_less_text_than_a_photograph() -> None:
    view = balls(16)
    assert 1700 < view.face_count < 2100
    assert len(view_svg(view, "corner", ids="t")) < 40_000


def test_a_large_mesh_is_thinned_for_the_still_within_its_cells() -> None:
    view = balls(110)
    assert view.face_count > 40_000
    assert len(view_svg(view, "corner", ids="t")) < 250_000
    less = thinned(view.solids[0], 3000)
    assert 1000 < len(np.asarray(less.faces)) <= 3000
    reach = np.linalg.norm(np.asarray(less.vertices), axis=1)
    assert reach.min() > 90
    assert reach.max() <= 100 + 1e-9


def test_wrong_input_is_refused() -> None:
    view = View([box("b", (0, 0, 0), (1, 1, 1))])
    with pytest.raises(KitError, match="did you mean 'front'"):
        view_svg(view, "frnt", ids="t")
    with pytest.raises(KitError, match="width of a view"):
        view_svg(view, "front", 0, ids="t")
    with pytest.raises(KitError, match="height of a view"):
        view_svg(view, "front", 100, float("nan"), ids="t")
    with pytest.raises(KitError, match="use a letter"):
        view_svg(view, "front", ids='x" onload="')


def test_what_is_seen_edge_on_or_has_no_size_is_drawn_without_fault() -> None:
    sheet = Solid("sheet", [(0, 0, 0), (9, 0, 0), (9, 9, 0)], [(0, 1, 2)])
    assert "<svg" in view_svg(View([sheet]), "front", ids="t")
    assert "<svg" in view_svg(View([], [Line("dot", [(1, 1, 1), (1, 1, 1)])]), "corner", ids="t")


def test_a_dark_page_gives_ground_words_and_dark_lines_other_colors_and_no_bright_line() -> None:
    ends = [(0.0, 0.0, 0.0), (9.0, 9.0, 9.0)]
    lines = [Line("dark", ends), Line("bright", ends[::-1], "red")]
    root = ElementTree.fromstring(view_svg(View([], lines, [Mark("word", ends[0])]), ids="t"))
    looks = [(each.tag.rpartition("}")[2], each.get("style") or "") for each in root.iter()]
    assert ("rect", "fill:var(--fw-paper,#fff)") in looks
    assert [look for tag, look in looks if tag == "path" and "color" in look] == ["color:var(--fw-ink,#111)"]
    assert any("fill:var(--fw-ink,#111);stroke:var(--fw-paper,#fff)" in look for tag, look in looks if tag == "g")
