"""What a bench can really make in a day: pure Python, no Django, whole minutes.

Ask `admit` or `openings`; store the plans they give; `problems` is the independent judge of any day.
"""

from plates.capacity import explain
from plates.capacity.admission import admit, openings
from plates.capacity.answers import Admission, Openings, Refusal
from plates.capacity.bench import BathRest, Bench, Budget, Day, Sitting, Size, Span, Timings
from plates.capacity.clock_hours import Hour, hours
from plates.capacity.explain import sentence
from plates.capacity.risk_values import Chances
from plates.capacity.timeline import Booked, Occupation, PlatePlan, SittingPlan, occupations, planned
from plates.capacity.values import CapacityValueError
from plates.capacity.verify import problems

__all__ = [
    "Admission", "BathRest", "Bench", "Booked", "Budget", "CapacityValueError", "Chances", "Day", "Hour", "Occupation",
    "Openings", "PlatePlan", "Refusal", "Sitting", "SittingPlan", "Size", "Span", "Timings", "admit", "explain",
    "hours", "occupations", "openings", "planned", "problems", "sentence",
]  # fmt: skip
