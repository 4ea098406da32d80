"""What the mouth of a hose or duct costs the air that enters it, stated once for all pages that need it."""

MOUTHS = {"plain end": 0.93, "flanged end": 0.49, "taper 45°": 0.25, "bell mouth": 0.04}
"""Loss at the entry by the shape of the mouth, in velocity pressures behind it."""

MOUTH_SOURCE = "ACGIH, Industrial Ventilation, from memory; taper 0.15 to 0.25"
