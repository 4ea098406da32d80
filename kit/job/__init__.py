"""The job file: one TOML that a person writes by hand and that travels through all notebooks.

    format = 2

    [job]
    name = "Cut-off bench"
    about = "what it is for"
    maker = "who builds it"                  # may be left out, as everything in this section
    prepared_by = "A. Turner"                # the head of a printed sheet: who worked it out,
    checked_by = "B. Joiner"                 # who checked it, when, and which revision of the job it is
    date = 2026-05-02
    revision = "B"
    units = "mm"                             # or "in": how results are shown; what is typed names its own unit
    denominator = 32                         # of inch fractions
    decimals = 1                             # of millimeters
    example = true                           # a demo: what does not state its origin is an example, not yet yours

    [machine]                                # any names; measured once, taken by the parts through links
    track_width = { value = "19.1 ± 0.05 mm", measured = 2026-05-02, how = "caliper" }

    [tables.woods."boat-shed ash"]           # a row more for a table; columns as in the table
    modulus_along = "11.9 ± 0.6 GPa"
    source = "bent between two trestles"

    [parts.stop]                             # a part: its id is free
    model = "stop.deflection"                # which question; `fitwright list` names them with their givens
    title = "Long stop"
    note = "for yourself"
    wood = "boat-shed ash"                   # a pick: a row of a table that fills several givens
    beyond = ["length"]                      # givens that leave the model's span, knowingly
    wishes = ["least tip_error", "most length"]   # what would be best, beside what the model wishes
    envelope = "saw_sweep"                   # a link: what it takes of another part's build
    gaps = [                                 # an input of the model beside its givens: rows, files, options
      { x = "60 mm", y = "500 mm", depth = "3.21 ± 0.13 mm" },
    ]

    place = { at = ["900 mm", "-628 mm", "0 mm"], turn = "5 deg", on = "bench" }   # where it stands: see kit.job.place
    body = { mass = "3 kg" }                 # what its page does not know of it: mass, center, boxes

    [parts.stop.givens]                      # what is not given stays as the model has it
    length = "1200 ± 0.5 mm"
    sides = 6                                # a bare number is in the given's own unit
    # Beside its value, a given may state spread, k, dof, and where it comes from: see below.
    push = { value = "60 N", spread = "normal", k = 2, measured = 2026-05-02, how = "spring scale", by = "A. Turner" }
    key_play = { value = "0.1 mm", origin = "solved", how = "so that the tip moves 0.1 mm" }
    key_width = { from = "machine.track_width" }
    tilt = { from = "frame.bevel" }          # a link: another part's quantity with its uncertainty

    [parts.stop.pins."two ribs"]             # a design that was considered, whole: pinned in the panel or written here
    why = "stiffer, but it hides the mark"
    picks = { wood = "hard maple" }          # may have beyond as well

    [parts.stop.pins."two ribs".givens]      # as the part's own, but without links
    length = "1200 ± 0.5 mm"

    [parts.stop.built]                       # results as measured after building, beside the predicted ones
    [parts.stop.record]                      # results as they once were, to compare with; never read as truth

Unknown keys are kept and pointed out.

A value states where it comes from by origin (example, chosen, measured, table or solved), measured (its date), how, by,
source and note; a row of a list may state them for all its values, and a pick stands as { value = "boat-shed ash", … }.
What states no origin is measured if it has a date, another part's if it is a link, and else chosen, whatever method it
names; so are the values of older files. What is not stated at all is the model's: a row of a table, a default with its
source, or an example, which the verdict counts.

Results are never stored as truth; they are computed anew.

    job = Job.open("boatshed.toml")
    job.case("stop").show("tip_error")
    job.set("stop", "length", "1300 ± 0.5 mm", how="steel rule")
    job.save()
"""

from kit.job.check import Finding, check
from kit.job.demo import open_job
from kit.job.errors import JobChanged, JobError, JobGone
from kit.job.job import Job
from kit.job.schema import GivenEntry, JobPart

__all__ = ["Finding", "GivenEntry", "Job", "JobChanged", "JobError", "JobGone", "JobPart", "check", "open_job"]
