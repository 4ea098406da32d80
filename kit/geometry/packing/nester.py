"""The nesting library spyrrow in a process of its own, which can be ended at any moment; run as a script.

It reads an order as JSON and writes a line of JSON for every better layout: parts as number, turn [deg], x and y.
This is the one module that imports the library.
"""

import json
import sys
import threading
from typing import Any


def main() -> None:
    """Pack the order on the standard input; write layouts to the standard output until the time is up."""
    import spyrrow

    order: dict[str, Any] = json.load(sys.stdin)
    items = [
        spyrrow.Item(str(k), [(x, y) for x, y in part["outline"]], part["count"], part["turns"])
        for k, part in enumerate(order["parts"])
    ]
    instance = spyrrow.StripPackingInstance("roll", order["width"], items)
    config = spyrrow.StripPackingConfig(total_computation_time=order["seconds"], seed=order["seed"], num_workers=1)
    reports = spyrrow.ProgressQueue()
    done: list[Any] = []
    thread = threading.Thread(target=lambda: done.append(instance.solve(config, reports)))
    thread.start()
    sound = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas)
    while thread.is_alive():
        thread.join(0.1)
        better = [solution for kind, solution in reports.drain() if kind in sound]
        for solution in (better + done)[-1:]:
            placed = [[int(item.id), item.rotation, *item.translation] for item in solution.placed_items]
            print(json.dumps(placed), flush=True)


if __name__ == "__main__":
    main()
