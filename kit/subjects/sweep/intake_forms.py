"""What each step by which a scan becomes a machine asks for, and the words beside it."""

from __future__ import annotations

from kit.core.intake import Ask, Step
from kit.subjects.sweep import intake_steps as do
from kit.subjects.sweep import second_intake

WORDS = ("to the right of the zero", "behind the zero", "above the bed")
RIDES_BLOCK = Ask("rides", "the joint on which it rides; none: it stands", "choice", names="joint", needed=False)
NAME_OF_PART = Ask("name", "name of the part, a new one or one that is there", default="head")
RIDES = Ask("rides", "the joint farthest from the bench on which it rides", "choice", names="joint")
LOW_END = Ask("low", "least angle or way from where it was scanned", default="0 deg")
HIGH_END = Ask("high", "greatest angle or way", default="45 deg")
STEPS = (
    Step(
        "scale",
        "Scale",
        "Two spots, and what a tape or caliper says of the way between them. A second length shows how sure it is.",
        (
            Ask("from", "from the spot", "spot"),
            Ask("to", "to the spot", "spot"),
            Ask("length", "measured length with its ±", default="500 ± 1 mm"),
        ),
        do.scale,
    ),
    Step(
        "upright",
        "Upright",
        "Three or more spots of the bed, or none for its largest plane; a spot toward you, and one on the axis that "
        "stands on the bed: zero lies below it.",
        (
            Ask("bed", "spots of the bed", "spots"),
            Ask("front", "a spot in front of the axis", "spot"),
            Ask("axis", "a spot on the axis", "spot"),
            Ask("up", "a spot above the bed, if up and down are mixed up", "spot", needed=False),
            Ask("tolerance", "by how much a point of the bed may be off its plane", default="2 mm"),
        ),
        do.upright,
    ),
    Step(
        "crop",
        "Crop",
        "Keep what lies in the box: cut the bench and the wall off.",
        (Ask("box", "box", "box"),),
        do.crop,
    ),
    Step(
        "brush",
        "Brush",
        "Take away what lies round the spots that you touched: a hose, a hand, the bench. Choose them and how wide.",
        (Ask("spots", "spots to brush away", "spots"), Ask("radius", "how far round each spot", default="30 mm")),
        do.brush,
    ),
    Step(
        "drop",
        "Small pieces",
        "Take out bits that float in the air.",
        (Ask("smaller", "pieces smaller than this are taken out", default="25 mm"),),
        do.drop,
    ),
    Step(
        "thin",
        "Thin",
        "Draw near points together, where the scan is finer than it is true.",
        (Ask("tolerance", "by how much the surface may move", default="0.5 mm"),),
        do.thin,
    ),
    Step(
        "joint",
        "Joint by its axis",
        "Joints go from the bench outward. It turns counterclockwise seen against its axis; a slide goes along it.",
        (
            Ask("name", "name of the joint", default="swing"),
            Ask("kind", "how it moves", "choice", options=("turn", "slide")),
            Ask("at", "a spot on its axis", "spot"),
            Ask("toward", "its axis goes", "choice", options=(*do.DIRECTIONS, do.TO_SPOT)),
            Ask("second", "second spot on its axis", "spot", needed=False),
            LOW_END,
            HIGH_END,
        ),
        do.joint,
    ),
    Step(
        "circle",
        "Joint by a circle",
        "Three or more spots round the axis: on the rim of a turntable, or one corner touched in three positions.",
        (
            Ask("name", "name of the joint", default="swing"),
            Ask("spots", "spots on the circle", "spots"),
            LOW_END,
            HIGH_END,
        ),
        do.circle_joint,
    ),
    Step(
        "second",
        "Joint by a second scan",
        "Add the joint by its axis first, roughly. Then scan the machine again with this joint alone moved, drop the "
        "file in here and touch the same spots on it: laid on each other, both scans show where the axis is.",
        (
            Ask("joint", "the joint that was moved", "choice", names="joint"),
            Ask("scan", "the second scan", "file", needed=False),
            Ask("turned", "about how far, an angle or a way", default="30 deg"),
            Ask("take", "its axis", "choice", options=(second_intake.TAKE, second_intake.COMPARE)),
        ),
        second_intake.add,
    ),
    Step(
        "part",
        "Moving part by a box",
        "What lies in the box moves with the joint.",
        (NAME_OF_PART, RIDES, Ask("box", "box", "box")),
        do.boxed,
    ),
    Step(
        "piece",
        "Moving part by a piece",
        "All that is connected to a spot moves with the joint.",
        (NAME_OF_PART, RIDES, Ask("spots", "a spot on each piece", "spots")),
        do.pieces,
    ),
    Step(
        "left_out",
        "Leave out of a part",
        "What lies in the box does not belong to the part.",
        (Ask("part", "part", "choice", names="part"), Ask("box", "box", "box")),
        do.left_out,
    ),
    Step(
        "typed_joint",
        "Joint by numbers",
        "Where its axis goes through, measured from the zero on the bed: to the right, to the back, upward.",
        (
            Ask("name", "name of the joint", default="swing"),
            Ask("kind", "how it moves", "choice", options=("turn", "slide")),
            *(Ask(name, words, default="0 mm") for name, words in zip(do.PLACE, WORDS, strict=True)),
            Ask("toward", "its axis goes", "choice", options=tuple(do.DIRECTIONS)),
            LOW_END,
            HIGH_END,
        ),
        do.typed_joint,
    ),
    Step(
        "block",
        "Measured box",
        "Without a scan: a box of the machine by its six sides, measured from the zero on the bed, each with its ±.",
        (
            Ask("name", "name of the block", default="base"),
            RIDES_BLOCK,
            Ask("left", "left side", default="-200 ± 1 mm"),
            Ask("right", "right side", default="200 ± 1 mm"),
            Ask("near", "front side", default="-150 ± 1 mm"),
            Ask("far", "back side", default="150 ± 1 mm"),
            Ask("bottom", "lower side", default="0 ± 1 mm"),
            Ask("top", "upper side", default="60 ± 1 mm"),
        ),
        do.block,
    ),
    Step(
        "round_block",
        "Measured cylinder",
        "Without a scan: a round part of the machine by the middles of its ends and its diameter, each with its ±.",
        (
            Ask("name", "name of the block", default="blade guard"),
            RIDES_BLOCK,
            *(
                Ask(f"{end} {name}", f"{which} end, {words}", default="0 ± 1 mm")
                for end, which in (("start", "one"), ("end", "other"))
                for name, words in zip(do.PLACE, WORDS, strict=True)
            ),
            Ask("diameter", "diameter", default="250 ± 1 mm"),
        ),
        do.round_block,
    ),
    Step(
        "limits",
        "Limits",
        "How far the joint goes, from where it was scanned; try it with its slider.",
        (Ask("joint", "joint", "choice", names="joint"), LOW_END, HIGH_END),
        do.limits,
    ),
)
