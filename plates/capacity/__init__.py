"""What a bench can really make in a day: pure Python, no Django, whole minutes.

Ask `admit` or `openings`; store the plans they give; `problems` is the independent judge of any day.
"""

from plates.capacity import explain
from plates.capacity.admission import admit, openings
from plates.capacity.answers import Admission, Openings, Refusal
from plates.capacity.bench import Bench, Budget, Day, Sitting, Size, Span, Timings
from plates.capacity.clock_hours import Hour, hours
from plates.capacity.explain import sentence
from plates.capacity.timeline import Booked, Occupation, PlatePlan, SittingPlan, occupations
from plates.capacity.values import CapacityValueError
from plates.capacity.verify import problems

__all__ = [
    "Admission", "Bench", "Booked", "Budget", "CapacityValueError", "Day", "Hour", "Occupation", "Openings",
    "PlatePlan", "Refusal", "Sitting", "SittingPlan", "Size", "Span", "Timings", "admit", "explain", "hours",
    "occupations", "openings", "problems", "sentence",
]  # fmt: skip
