"""The answer to a scenario, as one plain object for JSON.

feasible: true when a verified plan was built, false when a necessary bound proves that there is none, null when
neither was reached; "unknown" then names what was left undecided. A start is refused when gates 0 and 1 refuse it.
The limits of "hours" count one-plate sittings of the first plate asked for (else of the first size).
"""

from dataclasses import asdict, replace

from plates.capacity.admission import openings
from plates.capacity.bounds import impossible
from plates.capacity.clock_hours import Hour, hours
from plates.capacity.most import most
from plates.capacity.packing import packed
from plates.capacity.scenario import Scenario
from plates.capacity.timeline import Booked
from plates.capacity.verify import problems
from plates.capacity.windows import overloaded

Answer = dict[str, object]


def clock(minute: int) -> str:
    """Minutes after midnight as HH:MM; past midnight the hours run on."""
    return f"{minute // 60:02d}:{minute % 60:02d}"


def answer(scenario: Scenario) -> Answer:
    """Everything the scenario asks for."""
    booked = _booked(scenario)
    possible = booked is not None or not _proven_impossible(scenario)
    found: Answer = {
        "feasible": (True if booked is not None else None) if possible else False,
        "plan": [_planned(number, each) for number, each in enumerate(booked or ())],
        **_starts(scenario, booked),
        "unknown": [] if booked is not None or not possible else _asked(scenario),
        "hours": [_hour(hour) for hour in _hours(scenario, booked)],
        "risk": [],
    }
    if scenario.most:
        best = most(scenario.bench, scenario.day, scenario.most, scenario.budgets)
        found["most"] = {"sittings": len(best.plan), "proven": best.proven}
    return found


def _asked(scenario: Scenario) -> list[str]:
    return ["feasible", "starts"] if scenario.ask else ["feasible"]


def _proven_impossible(scenario: Scenario) -> bool:
    bench, day, sittings = scenario.bench, replace(scenario.day, start_every=1), scenario.sittings
    for number, sitting in enumerate(sittings):
        others = sittings[:number] + sittings[number + 1 :]
        if impossible(bench, day, others, sitting, scenario.budgets):
            return True
    return overloaded(bench, day, sittings) is not None


def _booked(scenario: Scenario) -> tuple[Booked, ...] | None:
    """A verified plan for the given sittings, or None; what is proven impossible is not searched for."""
    if _proven_impossible(scenario):
        return None
    booked = packed(scenario.bench, scenario.day, scenario.sittings, scenario.budgets)
    if booked is None or problems(scenario.bench, scenario.day, booked, scenario.budgets):
        return None
    return booked


def _planned(number: int, booked: Booked) -> Answer:
    plan = booked.plan
    plates = [{step: clock(minute) for step, minute in asdict(plate).items()} for plate in plan.plates]
    return {
        "sitting": number,
        "settle": clock(plan.settle),
        "farewell": clock(plan.farewell),
        "plates": plates,
    }


def _starts(scenario: Scenario, booked: tuple[Booked, ...] | None) -> Answer:
    if booked is None:
        undecided = (
            [] if _proven_impossible(scenario) else ["feasible", *(["starts"] if scenario.ask else [])]
        )
        return {"starts": [], "refused": [], "unknown": undecided}
    if scenario.ask is None:
        return {"starts": [], "refused": [], "unknown": []}
    found = openings(scenario.bench, scenario.day, booked, scenario.ask, scenario.budgets)
    refused = [
        {
            "start": clock(each.start),
            "why": each.why,
            "from": clock(each.begin),
            "to": clock(each.end),
            "lifted_by": each.lifted_by,
        }
        for each in found.refused
    ]
    return {"starts": [clock(start) for start in found.starts], "refused": refused}


def _hours(scenario: Scenario, booked: tuple[Booked, ...] | None) -> tuple[Hour, ...]:
    asked = scenario.ask or scenario.most or scenario.sizes
    if booked is None or not asked:
        return ()
    return hours(scenario.bench, scenario.day, booked, asked[0])


def _hour(hour: Hour) -> Answer:
    return {
        "hour": clock(hour.begin),
        "plates_booked": hour.plates_booked,
        "plates_limit": hour.plates_limit,
        "bound_by": hour.bound_by,
    }
