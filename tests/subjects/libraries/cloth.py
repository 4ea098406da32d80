"""Cones, chutes and tubes as fine meshes: their area, what they open to when laid flat, and where a plane cuts them."""

from collections.abc import Mapping

import igl
import numpy as np
import trimesh
from ezdxf.math import arc_chord_length
from shapely import Point

from tests.subjects.libraries._boards import hull

Values = Mapping[str, float]
FINE = 20_000  # parts of a rim


def _cone(radius: float, tip: np.ndarray, even: float = 1) -> trimesh.Trimesh:
    """Return a fan from the tip, its vertex 0, to a rim about the origin; above 1 `even` draws parts together at x."""
    part = np.linspace(-1, 1, FINE, endpoint=False)
    turn = np.pi * np.sign(part) * np.abs(part) ** even
    rim = radius * np.column_stack([np.cos(turn), np.sin(turn), np.zeros(FINE)])
    at = np.arange(FINE)
    faces = np.column_stack([np.zeros(FINE, int), 1 + at, 1 + (at + 1) % FINE])
    return trimesh.Trimesh(np.vstack([tip, rim]), faces, process=False)


def _sector(cone: trimesh.Trimesh) -> float:
    """Return the angle of the cone laid flat: a full turn less the curvature of its tip, rad."""
    return float(2 * np.pi - igl.gaussian_curvature(cone.vertices, cone.faces)[0])


def right_cone(v: Values) -> dict[str, float]:
    """A cone to its tip; for a frustum, less the cone beyond it."""
    wide, narrow = v["wide"] / 2, v["narrow"] / 2
    tip = np.array([0, 0, v["height"] * wide / (wide - narrow)])
    whole = _cone(wide, tip)
    slant = float(np.linalg.norm(whole.vertices[1] - tip))
    share = narrow / wide
    return {"sector": _sector(whole), "slant": slant * (1 - share), "area": float(whole.area) * (1 - share**2)}


def oblique_cone(v: Values) -> dict[str, float]:
    """A cone whose tip may lie off the middle; rulings are short near x, so the rim is parted finely there."""
    cone = _cone(v["radius"], np.array([v["offset"], 0, v["height"]]), even=3)
    return {"half_sector": _sector(cone) / 2, "area": float(cone.area)}


def chute(v: Values) -> dict[str, float]:
    """The skin between opening and level hose is that of the least convex body that holds both."""
    corner, quarter = v["corner_radius"], np.linspace(0, np.pi / 2, 501)
    half = np.array([v["opening_x"], v["opening_y"]]) / 2 - corner
    opening = [
        (*(half * sign + corner * np.array([np.cos(t + turn), np.sin(t + turn)])), 0.0)
        for turn, sign in zip(np.arange(4) * np.pi / 2, [(1, 1), (-1, 1), (-1, -1), (1, -1)], strict=True)
        for t in (quarter if corner else quarter[:1])
    ]
    rim = np.linspace(0, 2 * np.pi, 2000, endpoint=False)
    middle = np.array([v["offset_x"], v["offset_y"]])
    hose = [(*(middle + v["hose"] / 2 * np.array([np.cos(t), np.sin(t)])), v["height"]) for t in rim]
    body = hull([*opening, *hose])
    skin = np.abs(body.face_normals[:, 2]) < 1 - 1e-9
    return {"area": float(body.area_faces[skin].sum())}


def _mitered_tube(v: Values) -> dict[str, float]:
    """A tube of upright faces, cut off by a leaning plane."""
    many = round(v["stations"]) * (1000 if v["round"] else 1)
    inside = (v["size"] + v["cloth_thickness"]) / 2
    reach = inside if v["round"] else inside / np.cos(np.pi / many)
    turn = 2 * np.pi * (np.arange(many + 1) - (0 if v["round"] else 0.5)) / many
    foot = np.column_stack([reach * np.cos(turn), reach * np.sin(turn), np.zeros(many + 1)])
    at = np.arange(many)
    faces = [(i, i + 1, i + many + 2) for i in at] + [(i, i + many + 2, i + many + 1) for i in at]
    shell = trimesh.Trimesh(np.vstack([foot, foot + np.array([0, 0, 5000])]), np.array(faces), process=False)
    cut = trimesh.intersections.slice_mesh_plane(
        shell, (-np.sin(v["miter"]), 0, -np.cos(v["miter"])), (inside, 0, v["throat"])
    )
    station = foot[round(v["station"]) * (1000 if v["round"] else 1)][:2]
    here = np.linalg.norm(cut.vertices[:, :2] - station, axis=1) < 1e-6
    return {
        "length": float(cut.vertices[here, 2].max()),
        "longest": float(cut.vertices[:, 2].max()),
        "girth": float(np.linalg.norm(np.diff(foot, axis=0), axis=1).sum()),
        "area": float(cut.area),
    }


def round_tube(v: Values) -> dict[str, float]:
    """A round tube, cut off by a leaning plane."""
    return _mitered_tube({**v, "round": 1})


def square_tube(v: Values) -> dict[str, float]:
    """A tube of flat sides, cut off by a leaning plane."""
    return _mitered_tube({**v, "round": 0})


def twisted_ruling(v: Values) -> dict[str, float]:
    """Two triangles that share the ruling: one reaches along the side, one along the rim's tangent."""
    turn = v["turn"]
    foot = np.array([v["side"], v["along"], 0])
    head = np.array([v["radius"] * np.cos(turn), v["radius"] * np.sin(turn), v["height"]])
    side, tangent = np.array([0, 1, 0]), np.array([-np.sin(turn), np.cos(turn), 0])
    points = [foot, head, foot + side, head + tangent]
    pair = trimesh.Trimesh(points, [(0, 2, 1), (0, 3, 1)], process=False)
    return {"twist": float(pair.face_adjacency_angles[0])}


def _lengths(radius: float, depth: float) -> tuple[float, float]:
    """Return how long a round line is that lies inside and outside another by a hem's depth."""
    edge = Point(0, 0).buffer(radius, quad_segs=FINE)
    return edge.buffer(-depth, quad_segs=FINE).length, edge.buffer(depth, quad_segs=FINE).length


def convex_hem(v: Values) -> dict[str, float]:
    """Round an outside curve the hem is folded from a longer line to a shorter one."""
    folded, flat = _lengths(v["radius"], v["depth"])
    return {"bare_strain": (flat - folded) / flat}


def concave_hem(v: Values) -> dict[str, float]:
    """Round an inside curve the hem is folded from a shorter line to a longer one."""
    flat, folded = _lengths(v["radius"], v["depth"])
    return {"bare_strain": (folded - flat) / flat}


def facet(v: Values) -> dict[str, float]:
    """The chord that stands off its arc by the error allowed."""
    return {"facet": arc_chord_length(v["bend_radius"], v["chord_error"])}
