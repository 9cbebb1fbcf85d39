"""What a bench can really make in a day: pure Python, no Django, whole minutes.

Ask `admit` or `openings`; store the plans they give; `problems` is the independent judge of any day.
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
    "Admission", "BathRest", "Bench", "Booked", "Budget", "CapacityValueError", "Chances", "Day", "Hour", "Occupation",
    "Openings", "PlatePlan", "Refusal", "Sitting", "SittingPlan", "Size", "Span", "Timings", "admit", "explain",
    "hours", "occupations", "openings", "planned", "problems", "sentence",
]  # fmt: skip
