"""What a long stop brings to the lists: its mass, the timber of block and rib, the glue between them."""

from __future__ import annotations

from collections.abc import Iterator

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists, Need, Piece, glue
from kit.subjects.bodies import box_body

Span = tuple[float, float]


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return block and rib as long as both ends reach from the clamp's middle, and as much timber of each wood.

    Its axes begin on the face that meets the work, at the clamp's middle and the block's underside: x in the direction
    of the push, y along the block to its long end.
    """
    v, picks = inputs.base, inputs.case.picks
    long = v["long_reach"] + v["short_reach"]
    sections = [("stop block", picks["block_wood"], (v["block_height"], v["block_width"]))]
    if v["rib_height"] > 0:
        sections.append(("rib of the stop block", picks["rib_wood"], (v["rib_rise"], v["rib_depth"])))
    timber = tuple(Need(wood, long, "m", section) for _, wood, section in sections)
    return Lists(
        tuple(_bodies(inputs)),
        tuple(Piece(name, 1, (long, *section), wood) for name, wood, section in sections),
        (*timber, *(glue(long * v["rib_width"]) if v["rib_height"] > 0 else ())),
    )


def _bodies(inputs: BuildInput) -> Iterator[Body]:
    v = inputs.base
    deep, high, off, wide = (v[name] for name in ("block_width", "block_height", "rib_height", "rib_width"))
    ends = -v["short_reach"], v["long_reach"]
    yield _bar("stop block", (0.0, deep), ends, (0.0, high), _density(inputs, "block_wood"), "wood")
    if off > 0:
        middle, across = (high - wide) / 2, (deep - wide) / 2
        x, z = (
            ((deep, deep + off), (middle, middle + wide)),
            ((across, across + wide), (high, high + off)),
            ((across, across + wide), (-off, 0.0)),
        )[round(v["rib_face"])]
        yield _bar("rib of the stop block", x, ends, z, _density(inputs, "rib_wood"), "dark wood")


def _bar(name: str, x: Span, y: Span, z: Span, density: float | None, fill: str) -> Body:
    low, high = zip(x, y, z, strict=True)
    return box_body(name, low, high, density, fill)


def _density(inputs: BuildInput, pick: str) -> float | None:
    row = inputs.case.table("woods").row(inputs.case.picks[pick])
    return row.entry("density").base if "density" in row else None
