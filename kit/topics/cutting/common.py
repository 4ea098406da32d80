"""Cautions of everybody who cuts parts out of stock."""

CAUTIONS = (
    "Unplug a saw before you set it; its guard and riving knife stay on, hands stay 150 mm (6 in) from the blade.",
    "Close a rotary cutter each time you lay it down, and cut away from the hand that holds the rule.",
    "Never cut PVC or other cloth with chlorine in it by laser or hot knife: its smoke is acid and poisonous.",
)
