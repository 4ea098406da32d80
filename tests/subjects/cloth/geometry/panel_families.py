"""Seeded panels of eight families, and chutes, that nobody drew by hand: rails of 100 to 500 mm, arcs, some twist."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from kit.geometry.development.curves import Curve
from kit.geometry.development.primitives import arc, line
from kit.subjects.cloth.geometry.chute_surface import Chute
from kit.subjects.cloth.geometry.covering import Asked

Random = np.random.Generator
Floats = np.ndarray


@dataclass(frozen=True)
class Drawn:
    """A panel that was drawn, with its neighbor if it has one: edge curves by name and the panels over them."""

    family: str
    seed: int
    curves: dict[str, Curve]
    panels: tuple[Asked, ...]


def _bow(begin: Floats, end: Floats, rise: Floats, name: str) -> Curve:
    """A straight edge, or an arc whose middle is off the chord by `rise`."""
    begin, end = np.asarray(begin, float), np.asarray(end, float)
    if np.linalg.norm(rise) < 0.5:
        return line(begin, end, name)
    return arc(begin, (begin + end) / 2 + rise, end, name)


def _about(axis: int, angle: float) -> Floats:
    c, s = np.cos(angle), np.sin(angle)
    turn = np.eye(3)
    i, j = (axis + 1) % 3, (axis + 2) % 3
    turn[i, i] = turn[j, j] = c
    turn[i, j], turn[j, i] = -s, s
    return turn


def _rails(
    rng: Random,
    *,
    bow: tuple[float, float] = (0.0, 0.0),
    twist: tuple[float, float] = (0.0, 0.0),
    ratio: tuple[float, float] = (0.8, 1.25),
) -> list[Curve]:
    """A sill and a rail above it. bow: rise over half length of both; twist: of the rail against the sill, degrees."""
    half = rng.uniform(50, 250)
    other = np.clip(half * rng.uniform(*ratio), 50, 250)
    high, back = rng.uniform(80, 400), rng.uniform(-60, 60)
    sill_bow = rng.uniform(*bow)
    rail_bow = sill_bow * rng.uniform(0.6, 1.5)
    turn = _about(2, np.radians(rng.uniform(*twist) * rng.choice([-1, 1])))
    lift = np.array([rng.uniform(-10, 10), back, high])
    ends = np.array([[-other, 0, 0], [other, 0, rng.uniform(-5, 5)]]) @ turn.T + lift
    rise = turn @ np.array([0.0, -rail_bow * other, rng.uniform(0, 0.15) * rail_bow * other])
    return [
        _bow((-half, 0, 0), (half, 0, 0), np.array([0.0, -sill_bow * half, 0.0]), "sill"),
        _bow(ends[0], ends[1], rise, "rail"),
    ]


def _ridge(rng: Random, rail: Curve) -> Curve:
    """A third edge behind the rail, bent alike: what is between them is a neighbor sewn along the rail."""
    ends = rail.at(np.array([0.0, rail.end / 2, rail.end]))
    middle = (ends[0] + ends[2]) / 2
    away = np.array([0.0, rng.uniform(100, 300), rng.uniform(20, 120)])
    shrink = rng.uniform(0.7, 1.0)
    begin, end = (middle + shrink * (each - middle) + away for each in (ends[0], ends[2]))
    return _bow(begin, end, (ends[1] - middle) * rng.uniform(0.3, 1.0) * shrink, "ridge")


def _two(curves: list[Curve]) -> tuple[Asked, ...]:
    return (Asked("p", ("sill", "rail")),) + (
        (Asked("q", ("rail", "ridge")),) if any(curve.name == "ridge" for curve in curves) else ()
    )


def flat(rng: Random) -> tuple[list[Curve], tuple[Asked, ...]]:
    half, high = rng.uniform(50, 250), rng.uniform(60, 400)
    bow = rng.choice([0.0, rng.uniform(0.05, 0.5)]) * half
    shift, other = rng.uniform(-40, 40), np.clip(half * rng.uniform(0.6, 1.4), 50, 250)
    turn = _about(0, rng.uniform(0, 3)) @ _about(1, rng.uniform(0, 3))
    begin, end = (turn @ np.array([x, 0.0, 0.0]) for x in (-half, half))
    low, high_end = (turn @ np.array([x + shift, 0.0, high]) for x in (-other, other))
    curves = [
        _bow(begin, end, turn @ np.array([0.0, 0.0, -bow]), "sill"),
        _bow(low, high_end, turn @ np.array([0.0, 0.0, bow / 3]), "rail"),
    ]
    return curves, _two(curves)


def arched(rng: Random) -> tuple[list[Curve], tuple[Asked, ...]]:
    curves = _rails(rng, bow=(0.03, 0.9))
    curves += [_ridge(rng, curves[1])] if rng.uniform() < 0.5 else []
    return curves, _two(curves)


def twisted(rng: Random) -> tuple[list[Curve], tuple[Asked, ...]]:
    curves = _rails(rng, bow=(0.0, 0.4) if rng.uniform() < 0.6 else (0, 0), twist=(0.5, 25.0))
    curves += [_ridge(rng, curves[1])] if rng.uniform() < 0.3 else []
    return curves, _two(curves)


def doubly_bent(rng: Random) -> tuple[list[Curve], tuple[Asked, ...]]:
    curves = _rails(rng, bow=(0.05, 0.35))
    ridge = _ridge(rng, curves[1])
    ends = [curves[1].at(np.array([0.0, 1.0])), ridge.at(np.array([0.0, 1.0]))]
    ribs = []
    for k, name in enumerate(("left", "right")):
        chord = ends[1][k] - ends[0][k]
        rise = np.array([(-1, 1)[k] * rng.uniform(0, 0.3), -0.5, 1.0]) * rng.uniform(0.02, 0.2)
        ribs.append(_bow(ends[0][k], ends[1][k], rise * float(np.linalg.norm(chord)), name))
    return [*curves, ridge, *ribs], (
        Asked("p", ("rail", "ridge", "left", "right")),
        Asked("q", ("sill", "rail")),
    )


def pointed(rng: Random) -> tuple[list[Curve], tuple[Asked, ...]]:
    sill, rail = _rails(rng, bow=(0.0, 0.5))
    ends = sill.at(np.array([0.0, 1.0])), rail.at(np.array([0.0, 0.5, 1.0]))
    gap = rng.choice([0.0, rng.uniform(0.5, 8.0)])
    begin = ends[0][0] + np.array([0, 0, gap])
    rise = (ends[1][1] - (ends[1][0] + ends[1][2]) / 2) * rng.uniform(0.5, 1.0)
    curves = [sill, _bow(begin, ends[1][2], rise, "rail")]
    return curves, _two(curves)


def unequal(rng: Random) -> tuple[list[Curve], tuple[Asked, ...]]:
    ratio = (0.25, 0.6) if rng.uniform() < 0.5 else (1.7, 3.5)
    curves = _rails(rng, bow=(0.0, 0.6), ratio=ratio)
    curves += [_ridge(rng, curves[1])] if rng.uniform() < 0.3 else []
    return curves, _two(curves)


def backward(rng: Random) -> tuple[list[Curve], tuple[Asked, ...]]:
    if rng.uniform() < 0.3:
        curves, panels = doubly_bent(rng)
        which = rng.permutation(len(curves))[:2]
        curves = [curve.reversed() if k in which else curve for k, curve in enumerate(curves)]
        return curves, panels
    curves = _rails(rng, bow=(0.0, 0.6), twist=(0.0, 5.0))
    k = int(rng.integers(2))
    curves[k] = curves[k].reversed()
    return curves, (Asked("p", ("rail", "sill") if rng.uniform() < 0.5 else ("sill", "rail")),)


def near(rng: Random) -> tuple[list[Curve], tuple[Asked, ...]]:
    """Rails 3 to 15 mm apart at an end, or in the middle."""
    half, gap = rng.uniform(50, 250), rng.uniform(3, 15)
    bow = rng.uniform(0.0, 0.3) * half
    if rng.uniform() < 0.5:
        far = rng.uniform(50, 200)
        ends = np.array([[-half, 0, gap], [half, rng.uniform(-20, 20), far]])
        rise = np.array([0.0, -bow, 0.0])
    else:
        ends = np.array([[-half, 0, gap + 0.3 * half], [half, 0, gap + 0.3 * half]])
        rise = np.array([0.0, -bow, -0.3 * half])
    curves = [
        _bow((-half, 0, 0), (half, 0, 0), np.array([0.0, -bow, 0.0]), "sill"),
        _bow(ends[0], ends[1], rise, "rail"),
    ]
    return curves, _two(curves)


FAMILIES: dict[str, Callable[[Random], tuple[list[Curve], tuple[Asked, ...]]]] = {
    "flat": flat,
    "arched": arched,
    "twisted": twisted,
    "doubly bent": doubly_bent,
    "point-like end": pointed,
    "unequal rails": unequal,
    "reversed": backward,
    "nearly touching": near,
}


def drawn(family: str, seed: int) -> Drawn:
    """Return the panel of a family that belongs to a seed."""
    rng = np.random.default_rng([seed, list(FAMILIES).index(family)])
    curves, panels = FAMILIES[family](rng)
    return Drawn(family, seed, {curve.name: curve for curve in curves}, panels)


def drawn_chute(seed: int) -> tuple[Chute, int]:
    """Return the chute of a seed, anywhere in the spans of its page, and of how many panels it is made."""
    rng = np.random.default_rng([seed, 8])
    opening = rng.uniform(100, 800, 2)
    hose = rng.uniform(15, min(125.0, 0.75 * float(opening.min())))
    radius = float(rng.choice([0.0, rng.uniform(5, min(70.0, 0.5 * float(opening.min())))]))
    at = rng.uniform(-150, 150, 2)
    tilt, toward = rng.uniform(0, np.radians(40)), rng.uniform(-np.pi, np.pi)
    height = rng.uniform(300, 1200)
    middle = (float(at[0]), float(at[1]), -float(height))
    chute = Chute((float(opening[0]), float(opening[1])), radius, hose, middle, tilt, toward)
    return chute, int(rng.integers(1, 5))
