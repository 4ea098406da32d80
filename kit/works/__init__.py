"""Works: what a part needs beyond formulas, hung on its model by name.

A work is the module ``kit/works/<model's name with _ for .>.py`` with

    make(order) -> Made                      numbers, limits, pictures, tables and files; quick enough for a slider
    TAKES = ("envelope",)                    what other parts' works it takes; a job names them in shape.takes
    TASKS = {"Certify the clearance": task}  task(order, progress) -> Made: a slower, better answer. A panel starts
                                             it by a button; the station book takes the answer of the first
    propose(order) -> {"height": "420 mm"}   givens to begin with, from what is taken

of which all but `make` may be left out.
"""

from kit.works.making import alone, inputs, made, named_files, order, thorough, work_of
from kit.works.work import Held, Made, Number, Order, Output, Picture, Progress, Rows

__all__ = [
    "Held",
    "Made",
    "Number",
    "Order",
    "Output",
    "Picture",
    "Progress",
    "Rows",
    "alone",
    "inputs",
    "made",
    "named_files",
    "order",
    "thorough",
    "work_of",
]
