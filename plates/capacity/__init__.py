"""What a bench can really make in a day: pure Python, no Django, whole minutes.

`problem` is what is given: bench, day, sittings, plans, and what is answered. `gaps` is gate 0 (bounds) and gate 1:
a sitting fitted into the stored plan, every start minute tested at once. `exact` is gate 2: the day planned anew
with CP-SAT. `risk` is gate 3: thousands of days played. `verify` is the independent judge, `refusals` says why not,
`late` plans a day under way, `scenario` reads and answers files (`python -m plates.capacity FILE`); `learning` and
`what_if` stand beside them.

Ask `admit` or `openings`; store the plans they give; `problems` judges any day and shares no rule with the planner.
numpy and ortools take a third of a second to load: they are imported inside the functions that need them, and only
there.

Decisions
- 2026-11-25: gate 1 takes the first plan that fits: with gate 2 behind it every other choice sells the same
  sittings.
- 2026-11-25: gate 2 is one fixed search, earliest minute first, no linear relaxation, with a limit in the solver's
  own work; unknown is refused. Equal sittings are kept in order.
- 2026-11-25: gate 3 compares with the day before under the same luck: who already waited too often is no reason to
  refuse.
- 2026-11-25: one sitter before one lens at a time, also with two operators.
- 2026-11-26: the bath rests whenever it stood empty long enough; not by fixed pauses that move with each sale.
"""

from plates.capacity.admission import admit, openings
from plates.capacity.problem.answers import Admission, Openings, Refusal
from plates.capacity.problem.bench import BathRest, Bench, Budget, Day, Sitting, Size, Span, Timings
from plates.capacity.problem.timeline import Booked, Occupation, PlatePlan, SittingPlan, occupations, planned
from plates.capacity.problem.values import CapacityValueError
from plates.capacity.refusals import explain
from plates.capacity.refusals.clock_hours import Hour, hours
from plates.capacity.refusals.explain import sentence
from plates.capacity.risk.values import Chances
from plates.capacity.verify.day import problems

__all__ = [
    "Admission", "BathRest", "Bench", "Booked", "Budget", "CapacityValueError", "Chances", "Day", "Hour",
    "Occupation", "Openings", "PlatePlan", "Refusal", "Sitting", "SittingPlan", "Size", "Span", "Timings", "admit",
    "exact", "explain", "gaps", "hours", "late", "learning", "occupations", "openings", "planned", "problem",
    "problems", "refusals", "risk", "sentence", "what_if",
]  # fmt: skip
