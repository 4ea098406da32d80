"""The cautions of the trade, stated once for the pages that need them.

The machine's manual, local codes and the judgment of a qualified person come before all of them.
"""

CARRIER = (
    "cut the ends with the board clamped upright in a carrier that rides along the fence, never held against it by hand"
)
"""What mends a tilt that the saw does not reach: reads on after "to mend it, "."""

KICKBACK = (
    "A blade throws back what is pinched behind it: leave the riving knife on, stand beside the blade's line, and keep "
    "hands out of it."
)

TILTED = (
    "Put the fence on the side that the tilted blade leans away from: what lies between fence and leaning blade is "
    "trapped under it and thrown back. Where that cannot be, clamp the board to a sled."
)

SMALL = (
    "Cut nothing shorter than 300 mm (12 in) by hand along a fence: saw it off a longer board last, or clamp it in a "
    "carrier. Never use fence and miter gauge together for a cut that goes through."
)

HOSE = (
    "Fine wood dust burns and explodes in air: no sparks, no grinding, no smoking and no hot chips at this hose; empty "
    "the collector outdoors every day.",
    "Drill chips and filings of metal never go into a wood dust bag: they strike sparks at the fan and set fire to the "
    "dust. Catch them in a box of metal by themselves.",
    "Cloth, hose and hood charge up by the dust that runs through: use a hose with a wire, and ground wire, frame, "
    "hood and collector together.",
    "A blocked hose: switch off and unplug collector and machine before you open it, and clear it with a stick, not "
    "by hand. It begins with a fan that sounds higher and dust that stays at the machine.",
)

DUST = (
    "An estimate, and no proof that any rule is kept. Collectors, ducts and filters for combustible dust are ruled by "
    "law and standards (explosion vents, grounding, place of the collector): ask the local rules and a qualified "
    "person before you build.",
    "Fine wood dust harms lungs, that of many hardwoods causes cancer. The European Union's limit for hardwood dust is "
    "2 mg/m³ over eight hours, the inhalable part (Directive (EU) 2017/2398, since 2023); others are lower. No flow on "
    "this page says whether it is kept: have it measured, or wear a respirator; the filter decides what comes back "
    "into the room.",
)

SCREWS = (
    "An estimate, and no proof that any rule is kept: what carries people, or hangs over them, is for a qualified "
    "person and the local code.",
    "Drill and drive with the work clamped, the other hand out of the bit's line; wear eye protection.",
    "Look through before you drive: no cable, pipe or steel behind, and no tip that comes out where hands go.",
    "Never hang anything on screws in end grain. Wood that shrinks lets go: tighten once more after a season.",
)

SAW = (
    "Unplug the saw before setting or measuring an angle at the blade, and keep the guards on for every cut.",
    "Keep both hands 150 mm (6 in) or more from the blade; hold short pieces with a clamp or a sled, never by hand.",
    KICKBACK,
    TILTED,
    SMALL,
    "Cut test pieces from scrap of the same thickness and try the joint before cutting the boards.",
    "Sawing makes dust: connect the extraction and wear eye, ear and breathing protection.",
    "The machine's manual and the rules of your shop come before anything printed here.",
)

ROUTER = (
    "Unplug the router before you change the bit, set the depth or measure at the bit.",
    "Clamp the work and every straightedge; keep both hands on the handles and the base flat until the bit stands.",
    "Keep hands 150 mm (6 in) from the bit; rout no piece too short to be clamped clear of it.",
    "Routing makes dust: connect the extraction and wear eye, ear and breathing protection.",
    "The router's manual and the rules of your shop come before anything printed here.",
)

CLOTH_KNIFE = (
    "Close or cover the blade whenever it is not cutting, cut away from the hand that holds the ruler, and keep that "
    "hand behind the edge.",
    "Never cut PVC or cloth coated with it by laser or hot wire: its smoke is poisonous and eats metal.",
    "Make the piece in paper first, and fold it up, before you cut cloth.",
)

SEWING = (
    "Coated cloth sticks under the foot and drags, so that plies creep: lay a strip of paper under the foot, tear it "
    "off afterward, and test on an offcut first.",
    "Keep fingers off the needle's way: switch the machine off to thread it, and turn it by hand over thick places.",
    "Wear eye protection when stapling, never point the stapler at anyone, and keep the other hand off its line.",
)

STOCK = (
    "Unplug a saw before you set it; its guard and riving knife stay on, hands stay 150 mm (6 in) from the blade.",
    KICKBACK,
    SMALL,
    "Close a rotary cutter each time you lay it down, and cut away from the hand that holds the rule.",
    "Never cut PVC or other cloth with chlorine in it by laser or hot knife: its smoke is acid and poisonous.",
)

HEAVY_MACHINE = (
    "Unplug the machine and let it stand still before you measure at it, lift it or put pads under it.",
    "Lift a heavy machine with help or a hoist, and never reach under it while it hangs or stands on a lever.",
    "Guards stay on, and hands stay 150 mm (6 in) from the blade when it runs again.",
    "The machine's manual and the rules of your shop come before anything printed here.",
)

SCALE = (
    "Unplug the machine before you measure at the blade, lay a scale or set a cursor.",
    "Keep guards on and hands at least 150 mm (6 in) from the blade; the machine's manual and local rules come first.",
)

TEST_CUT = "Make a test cut in scrap and measure it before you trust a scale: dust on, eye and ear protection on."

PART_MEASURING = (
    "Unplug the machine before you measure at blade, fence or stop.",
    "Keep guards on and hands at least 150 mm (6 in) from the blade; the machine's manual and local rules come first.",
    "Measure parts away from the machine, the saw at rest and the dust brushed off.",
)

MOVING_MACHINE = (
    "Unplug the machine and let the blade stand still before you measure at it, scan it or move it by hand.",
    "Guards stay on while you measure and scan; a hood must never hinder a guard or its return.",
    "When the machine runs again, keep both hands 150 mm (6 in) or more from the blade or bit.",
    "Swing, tilt and slide the machine by hand through all its positions in the finished hood before it runs.",
    "The machine's manual and the rules of your shop come before anything printed here.",
)

KNOB = (
    "Drill plies clamped down, with guards on; never hold a small ply by hand: saw the outline last.",
    "Unplug the machine before you set or try its stop; hands stay 150 mm (6 in) from the blade.",
    "A rating by the maker of stud, nut, track or machine comes before every estimate here.",
)

SHELF = (
    "Anchor a shelf to studs, joists or masonry with fasteners rated for it; a maker's rating comes before this page.",
    "Hang nothing heavy over a machine or over the place where you stand, and never climb on a shelf.",
    "Heavy things go low; load a new shelf step by step, and look at it again after some weeks.",
    "Sawing its boards: unplug the saw before you set it; hands stay 150 mm (6 in) from the blade.",
)

LIFTING = (
    "If it hurts, is hard to hold or hides your feet, put it down: hoist, trolley or helper come first.",
    "Unplug the machine, tie down what swings, and clear the way before you lift it.",
    "Your country's rules on handling loads, and a doctor's word, come before any number here.",
)
"""For what is lifted by hand."""

DOOR = (
    "Stop the machine, unplug it and wait until the blade stands before you open a door in its hood.",
    "A door that opens onto a moving blade needs an interlock: have one put in by somebody who knows it.",
    "Watch your fingers at the hinge side, and hold a door that opens upward by a stay, not by hand.",
)
"""For doors in a hood."""

FINISH = (
    "Rags with oil heat up by themselves and take fire: dry them spread out outdoors, or drown them in a closed tin.",
    "Open windows, no flame, no sparks: what dries away burns, and harms who breathes it. Read the can's own cautions.",
    "Sand between coats with extraction and a mask; let no finish dry on guards, blades and sliding ways.",
)
"""For primer, paint and oil."""
