"""The depth of a groove pass by pass: what is laid back under the rod so that each goes a little deeper."""

from __future__ import annotations

from kit.core.build import Build, BuildInput, Table
from kit.core.quantity import show
from kit.drawing.paper import paper_plan
from kit.drawing.table_files import card_output

MOST = 40  # passes: more would be no set-up


def build(inputs: BuildInput) -> Build:
    """Return the table of passes: depth of each, and the spacer between rod and stop."""
    v, d, plan = inputs.base, inputs.display, paper_plan(inputs.stated, inputs.printer)
    count = round(v["passes"])
    if count > MOST:
        return Build(cautions=(f"{count} passes are more than a table is for: take a larger bit.",))
    rows = []
    for number in range(1, count + 1):
        left = (count - number) * v["pass_depth"]  # still to cut, and so much of a spacer
        sizes = (v["depth"] - left, left, v["floor"] + left)
        rows.append((str(number), *(show(size, "mm", d, resolution=0.05) for size in sizes)))
    table = Table("Passes", ("Pass", "Depth", "Spacer under the rod", "Wood left under it"), tuple(rows))
    return Build(
        tables=(table,),
        outputs=(card_output("passes", "a card of the passes, to hang at the bench", table, plan),),
    )
