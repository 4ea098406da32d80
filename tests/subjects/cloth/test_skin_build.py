"""The skin's work: pattern, limits, tables and files from typed curves and from a hood's frame; bad input refused."""

from collections.abc import Mapping
from math import pi, sin
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
from pypdf import PdfReader
from shapely import Polygon

from kit.core.build import Build, BuildInput
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.drawing.layers import Layer
from kit.job.build import standalone
from kit.subjects import model, subject
from kit.subjects.cloth.skin_build import Skin, build
from kit.subjects.cloth.skin_inputs import USUAL
from kit.subjects.hood.geometry.form import HoodDimensions
from tests.builds import build_input

MM = Display()


def ordered(shape: Mapping[str, Any] | None = None, frame: object = None, **givens: str) -> BuildInput:
    inputs = standalone(model("cloth.skin").at(**givens), MM)
    takes = {} if frame is None else {"frame": Build(data=frame, inputs="hood")}
    return build_input(inputs.case, shape, takes, display=MM)


def usual(**other: Any) -> dict[str, Any]:
    return {**USUAL, **other}


HOOD = HoodDimensions(
    front=300,
    back=360,
    left=320,
    right=320,
    chamfer=120,
    height=420,
    thickness=15,
    slope_front=1.4,
    slope_back=1.5,
    slope_left=1.45,
    slope_right=1.45,
    slope_rear=1.45,
)


def test_a_skin_works_alone() -> None:
    made = build(ordered())
    assert made.ok
    skin: Skin = made.data
    assert [piece.name for piece in skin.pattern.pieces] == ["front", "crown"]
    assert [(step.kind, step.seam.name) for step in skin.steps] == [("join", "rail"), ("hem", "sill")]
    assert made.pictures[0].words.endswith("the edge rail is drawn bold in both")
    sill = skin.pattern.pieces[0].edge("sill").finish
    assert sill.allowance == pytest.approx(model("cloth.skin").at().base["hem_margin"])


def test_numbers_follow_the_geometry() -> None:
    """The rail's arc by three points: radius and angle by the chord theorem; thread 2 + 2 T S of it and 15 % more."""
    p, q, r = (np.array(point, dtype=float) for point in USUAL["edges"][1]["arc"])
    a, b, c = (float(np.linalg.norm(side)) for side in (q - r, p - r, p - q))
    radius = a * b * c / (2 * float(np.linalg.norm(np.cross(q - p, r - p))))
    turn = 2 * (2 * np.arcsin(c / (2 * radius)))
    made = build(ordered(cloth_thickness="0.05 mm", chord_error="0.02 mm", stitch="2.5 mm"))
    assert made.number("sewn").base == pytest.approx(radius * turn, abs=0.05)
    assert made.number("thread").base == pytest.approx(radius * turn * (2 + 2 * 0.1 / 2.5) * 1.15, rel=1e-3)
    assert made.number("missed").base <= 0.02


def test_walls_of_a_hood_are_covered_true_to_its_boards() -> None:
    """A flat wall's skin is the wall: its area by the trapezoid's own measures, seams along the posts."""
    made = build(ordered(frame=HOOD, cloth_thickness="0.05 mm", cloth_width="3 m"))
    skin: Skin = made.data
    names = [piece.name for piece in skin.pattern.pieces]
    assert names == ["right", "rear right", "back", "rear left", "left"]
    assert {step.seam.name for step in skin.steps} == {
        "right-rear right corner",
        "rear right-back corner",
        "back-rear left corner",
        "rear left-left corner",
    }
    back = skin.pattern.pieces[names.index("back")]
    tall = HOOD.height / sin(HOOD.slope_back)
    low, high = back.edge("back begin").length, back.edge("back end").length
    assert Polygon(back.outline).area == pytest.approx((low + high) / 2 * tall, rel=2e-3)
    assert made.number("twist").base == pytest.approx(0.0, abs=1e-9)
    for panel in skin.panels:
        outward = panel.vertices.mean(axis=0) - [0, 0, panel.vertices[:, 2].mean()]
        p, q, r = panel.vertices[panel.triangles[0]]
        assert np.cross(q - p, r - p) @ outward > 0


def test_what_threads_cannot_take_gets_darts_that_are_sewn_first() -> None:
    made = build(ordered(warp_limit="0.3 %", weft_limit="0.4 %"))
    assert made.ok
    table = made.rows("Darts and seams")
    assert all(row[1].startswith("crown dart") for row in table.rows)
    skin: Skin = made.data
    sewn = [step.seam.name for step in skin.steps]
    assert sewn[:2] == ["crown dart 1", "crown dart 2"]
    whole = sum(step.seam.length for step in skin.steps if step.seam.name.startswith("rail"))
    assert whole == pytest.approx(build(ordered()).number("sewn").base, rel=0.01)


FRONT = {"name": "front", "edges": ["sill", "rail"]}
CROWN = USUAL["panels"][1]


def test_a_panel_is_parted_where_told_and_its_neighbor_sewn_to_both_parts() -> None:
    made = build(ordered(usual(panels=[{**FRONT, "seams": ["200 mm"]}, CROWN])))
    skin: Skin = made.data
    names = [piece.name for piece in skin.pattern.pieces]
    assert names == ["front 1", "front 2", "crown"]
    whole = build(ordered()).data
    areas = [sum(Polygon(piece.outline).area for piece in each.pattern.pieces[:-1]) for each in (skin, whole)]
    assert areas[0] == pytest.approx(areas[1], rel=1e-9)
    assert skin.pattern.pieces[0].edge("sill").length == pytest.approx(200.0, abs=13.0)  # at the nearest ruling
    seams = {step.seam.name: {step.seam.piece, step.seam.other} for step in skin.steps if step.kind != "hem"}
    assert seams == {
        "front seam 1": {"front 1", "front 2"},
        "rail": {"front 2", "crown"},
        "rail′": {"front 1", "crown"},
    }
    assert {edge.finish.kind for piece in skin.pattern.pieces for edge in piece.edges if "sill" in edge.name} == {"hem"}


def test_seams_are_proposed_so_that_a_wide_panel_fits_a_narrow_roll() -> None:
    with pytest.raises(KitError, match=r"The piece front is \d+ mm wide but the cloth only 330 mm"):
        build(ordered(usual(panels=[FRONT]), cloth_width="330 mm"))
    made = build(ordered(usual(panels=[{**FRONT, "parts": 2}]), along="weft", cloth_width="420 mm"))
    assert [piece.name for piece in made.data.pattern.pieces] == ["front 1", "front 2"]
    assert {"front seam 1"} == {step.seam.name for step in made.data.steps if step.kind == "join"}


def test_a_proposed_seam_keeps_clear_of_where_chips_strike() -> None:
    def first_length(**told: Any) -> float:
        made = build(ordered(usual(panels=[{**FRONT, "parts": 2, **told}]), along="weft"))
        first = next(piece for piece in made.data.pattern.pieces if piece.name == "front 1")
        return float(next(edge.length for edge in first.edges if edge.name.startswith("sill")))

    place = round(first_length())
    clear = [[f"{place - 40} mm", f"{place + 40} mm"]]
    assert abs(first_length(keep_clear=clear) - place) > 35


def test_creases_are_fold_lines_on_pattern_and_paper_model() -> None:
    corner = [
        {"name": "low", "line": [[-200, 0, 0], [0, -100, 0], [200, 0, 0]]},
        {"name": "high", "line": [[-150, 0, 200], [0, -75, 200], [150, 0, 200]]},
    ]
    made = build(ordered({"edges": corner, "panels": [{"name": "nose", "edges": ["low", "high"]}]}))
    (piece,) = made.data.pattern.pieces
    (crease,) = (line for name, line in piece.folds if name == "crease")
    assert np.hypot(*(crease[1] - crease[0])) == pytest.approx(np.hypot(200, 25), abs=0.5)
    layers = [item for item in made.picture("model").draw(MM).items if getattr(item, "layer", None) is Layer.FOLD]
    assert len(layers) == 1


def test_cutouts_and_corners() -> None:
    round_one = {"piece": "front", "center": ["260 mm", "150 mm"], "diameter": "60 mm"}
    long_one = {"piece": "crown", "center": ["200 mm", "-150 mm"], "size": ["80 mm", "50 mm"]}
    made = build(ordered(usual(cutouts=[round_one], corners="mitered")))
    (front, crown) = made.data.pattern.pieces
    assert Polygon(front.holes[0]).area == pytest.approx(pi * 30**2, rel=0.002)
    assert not crown.holes
    assert Polygon(front.cut).area < Polygon(build(ordered()).data.pattern.pieces[0].cut).area
    with pytest.raises(KitError, match="Cut-out 1 of the crown reaches over its sew line"):
        build(ordered(usual(cutouts=[long_one])))


def test_only_the_layer_moves_the_cloth_out() -> None:
    near, far = (build(ordered(layer=layer)) for layer in ("on the frame", "over another skin"))
    lengths = [made.data.pattern.pieces[0].edge("sill").length for made in (near, far)]
    # The sill bends by 4 atan(50 / 260) in its plane; one thickness further out it is longer by that angle times it.
    assert lengths[1] - lengths[0] == pytest.approx(4 * np.arctan(50 / 260) * 0.55, rel=0.1)


def test_measures_of_the_sewn_piece_say_where_it_is_off() -> None:
    meant = build(ordered()).data.pattern.pieces[0]
    corners = np.array([edge.line[0] for edge in meant.edges])
    diagonal = float(np.hypot(*(corners[0] - corners[2])))
    told = [{"piece": "front", "from": "A", "to": "C", "length": f"{diagonal + 4:.3f} mm"}]
    table = build(ordered(usual(measured=told))).rows("As sewn")
    off = {row[1]: float(row[2].split()[0]) for row in table.rows if len(row[1]) == 1}
    assert set(off) == {"A", "B", "C", "D"}
    assert max(off.values()) == pytest.approx(2.0, abs=0.7)  # both ends share 4 mm, the edges give a little


def test_the_proof_by_refinement() -> None:
    work = subject("cloth.skin")
    assert work is not None
    (task,) = work.tasks.values()
    told: list[str] = []
    made = task(ordered(), lambda _share, words: not told.append(words))
    assert made.ok
    assert told == ["refining the panel front"]
    counts = [int(row[1]) for row in made.rows("Refined").rows]
    folds = [float(row[2].rstrip("°")) for row in made.rows("Refined").rows]
    assert folds[-1] / folds[0] == pytest.approx(counts[0] / counts[-1], rel=0.15)


def test_files_read_back(tmp_path: Path) -> None:
    made = build(ordered(usual(paper="letter", roll="36 in")))
    written = {path.name: path for output in made.outputs for path in output.write(tmp_path, "34_skin", MM)}
    assert sorted(written) == [
        "34_skin_model_1to5_Letter.pdf",
        "34_skin_pattern_fullsize.dxf",
        "34_skin_pattern_fullsize.svg",
        "34_skin_pattern_fullsize_Letter.pdf",
        "34_skin_pattern_fullsize_roll914.4.pdf",
        "34_skin_pieces.csv",
    ]
    doc = ezdxf.readfile(written["34_skin_pattern_fullsize.dxf"])
    assert doc.header["$INSUNITS"] == 4
    space = doc.modelspace()
    outlines = [line for line in space.query("LWPOLYLINE") if line.dxf.layer == "OUTLINE"]
    areas = sorted(_area(line) for line in outlines)
    assert areas == pytest.approx(sorted(Polygon(piece.cut).area for piece in made.data.pattern.pieces), rel=1e-4)
    roll = PdfReader(written["34_skin_pattern_fullsize_roll914.4.pdf"])
    assert len(roll.pages) == 1
    across, up = (float(side) * 25.4 / 72 for side in roll.pages[0].mediabox[2:])
    assert min(abs(across - 914.4), abs(up - 914.4)) < 0.01


def _area(line: Any) -> float:
    """Area inside a polyline with bulges: its chords' polygon and the segments of its arcs."""
    points = np.array(line.get_points("xyb"))
    total = Polygon(points[:, :2]).area * (1 if Polygon(points[:, :2]).exterior.is_ccw else -1)
    for (x, y, bulge), (u, v, _) in zip(points, np.roll(points, -1, axis=0), strict=True):
        if bulge:
            angle, chord = 4 * np.arctan(bulge), float(np.hypot(u - x, v - y))
            radius = chord / 2 / sin(abs(angle) / 2)
            total += radius**2 / 2 * (angle - sin(angle))
    return abs(total)


def test_what_is_proposed_is_what_the_pattern_has() -> None:
    work = subject("cloth.skin")
    assert work is not None
    assert work.propose is not None
    texts = work.propose(ordered())
    made = build(ordered(**texts))
    assert made.number("sewn").base == pytest.approx(made_length(texts["seam_length"]), abs=0.51)


def made_length(text: str) -> float:
    return float(text.split()[0])


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        ({"edges": [{"name": "a", "circle": []}]}, "edges, number 1: unknown input 'circle'"),
        ({"edges": [{"name": "a", "arc": [[0, 0, 0], [1, 0, 0]]}]}, "edges, number 1: arc has 2 entries; it needs 3"),
        (
            {"edges": [{"name": "a", "arc": [[0, 0, 0], [1, 0, 0], [2, 0, 0]]}]},
            "three points of the a lie on one line",
        ),
        (
            {"edges": [{"name": "a", "line": [[0, 0], [1, 0, 0]]}]},
            "edges, number 1, line, number 1: point has 2 entries",
        ),
        (
            {"edges": [{"name": "a", "line": [["0 kg", 0, 0], [1, 0, 0]]}]},
            "edges, number 1, line, number 1, number 1: point: .*mass",
        ),
        ({"edges": [{"name": "a", "line": [[0, 0, 0], [0, 0, 0]]}]}, "Edge 1 of the a has no length"),
        ({"edges": USUAL["edges"] + USUAL["edges"][:1]}, "two edges of the frame are named 'sill'"),
        ({"edges": USUAL["edges"], "panels": [{"name": "front"}]}, "panels, number 1: edges is not stated"),
        (
            usual(panels=[{"name": "front", "edges": ["sill", "rale"]}]),
            "has no edge 'rale'; did you mean 'rail'",
        ),
        (usual(finish={"sill": "glue"}), "finish: sill is 'glue'; write one of staple"),
        (usual(finish={"sil": "hem"}), "The skin has no edge 'sil'; did you mean 'sill'"),
        (usual(show="rial"), "the skin has no edge 'rial' to show; did you mean 'rail'"),
        (usual(measured=[{"piece": "front"}]), "measured, number 1: from is not stated"),
        (usual(measured=[{"piece": "frnt", "from": "A", "to": "C", "length": 600}]), "did you mean 'front'"),
        (usual(measured=[{"piece": "front", "from": "A", "to": "X", "length": 600}]), "no corner 'X'"),
        (
            usual(measured=[{"piece": "front", "from": "A", "to": "C", "length": 6}]),
            "check which corners were measured",
        ),
        ({"edges": USUAL["edges"]}, "The skin has no panels"),
        (
            usual(panels=[{**USUAL["panels"][1], "parts": 2}]),
            "the panel crown states parts; a panel with two edges",
        ),
        (
            usual(panels=[{**USUAL["panels"][0], "parts": 2, "keep_clear": ["100 mm"]}]),
            "panels, number 1, keep_clear, number 1: stretch is '100 mm'",
        ),
        (
            usual(panels=[{**USUAL["panels"][0], "keep_clear": [[0, 9]]}]),
            "the panel front states keep_clear; a panel",
        ),
        (
            usual(panels=[{**USUAL["panels"][0], "parts": 99}]),
            "panels, number 1: parts is 99; write a whole number from 1 to 12",
        ),
        (
            usual(panels=[{**USUAL["panels"][0], "seams": ["900 mm"]}]),
            "is entered at 900 mm along sill, which is 53",
        ),
        (usual(corners="mitred"), "corners is 'mitred'; did you mean 'mitered'"),
        (usual(cutouts=[{"piece": "front"}]), "cutouts, number 1: center is not stated"),
        (
            usual(cutouts=[{"piece": "frnt", "center": [100, 100], "diameter": 20}]),
            "no piece 'frnt' to cut out of; did you mean 'front'",
        ),
    ],
)
def test_bad_input_gets_a_sentence(shape: dict[str, Any], words: str) -> None:
    with pytest.raises(KitError, match=words.replace("'", ".")):
        build(ordered(shape))


def test_cloth_narrower_than_a_piece_and_a_frame_that_is_none() -> None:
    with pytest.raises(KitError, match=r"The piece front is \d+ mm wide but the cloth only 300 mm"):
        build(ordered(cloth_width="300 mm"))
    with pytest.raises(KitError, match="takes its frame from a part that is no hood"):
        build(ordered(frame=pi))


def test_curves_that_cross_are_refused() -> None:
    crossing = [
        {"name": "one", "line": [[0, 0, 0], [500, 0, 300]]},
        {"name": "other", "line": [[0, 0, 300], [500, 0, 0]]},
    ]
    with pytest.raises(KitError, match=r"cross|meet"):
        build(ordered({"edges": crossing, "panels": [{"name": "web", "edges": ["one", "other"]}]}))


def test_a_hem_wider_than_its_radius_is_refused() -> None:
    tight = usual(
        edges=[
            {"name": "sill", "arc": [[-60, 0, 0], [0, 0, 60], [60, 0, 0]]},
            {"name": "rail", "line": [[-60, 0, 200], [60, 0, 200]]},
        ],
        panels=[{"name": "flap", "edges": ["sill", "rail"]}],
    )
    with pytest.raises(KitError, match=r"The hem of the edge sill is .* deep where the edge bends at a radius of"):
        build(ordered(tight, hem_width="45 mm"))
