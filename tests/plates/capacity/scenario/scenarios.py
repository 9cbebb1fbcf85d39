"""The example of the design page s.3, and asking like it."""

import json
import re

from plates.capacity import Booked, PlatePlan, SittingPlan
from plates.capacity.scenario.answer import answer
from plates.capacity.scenario.reading import read

# The example as it stands on the design page s.3.
EXAMPLE = """
{"day": {"opens": "10:00", "closes": "18:00", "racks_empty_by": "19:15", "start_every": 15},
 "bench": {"operators": 1, "tank_places": 1, "wash_places": 6, "sitters_at_once": 3},
 "timings": {"settle": 4, "pour": 2, "sensitise": [3, 5], "load": 1, "expose": 2, "develop": 2, "wet_window": 8,
             "fix": 2, "fix_within": 2, "wash": [60, 120], "lift": 1, "farewell": 2, "farewell_within": 5,
             "first_pour_within": 12, "next_pour_within": 11},
 "sizes": {"quarter": {"wash_places": 1}, "whole": {"wash_places": 2}},
 "tolerance": 5,
 "sittings": [{"start": "10:00", "plates": ["quarter", "quarter"]}],
 "ask": {"plates": ["quarter"]},
 "risk": {"retake": 0.15, "no_show": 0.05, "spread": 0.25, "late_sd": 4, "wait_limit": 10, "chance_limit": null}}
"""


def asked(**changes):
    return answer(read(json.dumps({"day": {}, **changes})))


def minutes(clock):
    assert re.fullmatch(r"\d\d:\d\d", clock)
    return int(clock[:2]) * 60 + int(clock[3:])


def plans(scenario, found):
    """The plans of an answer, back in minutes."""
    for sitting, plan in zip(scenario.sittings, found["plan"], strict=True):
        plates = [PlatePlan(**{step: minutes(at) for step, at in plate.items()}) for plate in plan["plates"]]
        yield Booked(sitting, SittingPlan(minutes(plan["settle"]), minutes(plan["farewell"]), tuple(plates)))
