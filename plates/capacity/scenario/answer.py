"""The answer to a scenario, as one plain object for JSON.

feasible: true when a verified plan was built, false when it is proven that there is none, null when neither was
reached in the time given; "unknown" then names what was left undecided, and else the starts left undecided. A start
is refused when gate 0 or gate 2 proves that it cannot be added, with the sittings that were given kept; where
"chance_limit" is a number also as "waiting", when somebody (due at "from") would then wait long too often.
"risk" tells for each given sitting how likely the sitter waits longer than "wait_limit", the bound that this
lies below with 95 % confidence, and the mean wait in minutes, all by playing the plan on thousands of days.
The limits of "hours" count one-plate sittings of the first plate asked for (else of the first size).
"""

from dataclasses import asdict, replace

from plates.capacity.gaps.bounds import impossible
from plates.capacity.gaps.packing import packed
from plates.capacity.gaps.windows import overloaded
from plates.capacity.problem.answers import Refusal
from plates.capacity.problem.bench import Size
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import Booked
from plates.capacity.refusals.clock_hours import Hour, hours
from plates.capacity.scenario.reading import Scenario
from plates.capacity.verify.day import problems

Answer = dict[str, object]
SECONDS = 10.0


def clock(minute: int) -> str:
    """Minutes after midnight as HH:MM; past midnight the hours run on."""
    return f"{minute // 60:02d}:{minute % 60:02d}"


def answer(scenario: Scenario) -> Answer:
    """Everything the scenario asks for."""
    booked, possible = _booked(scenario)
    found: Answer = {
        "feasible": (booked is not None) if booked is not None or not possible else None,
        "plan": [_planned(number, each) for number, each in enumerate(booked or ())],
        **_starts(scenario, booked, possible),
        "hours": [_hour(hour) for hour in _hours(scenario, booked)],
        "risk": _risk(scenario, booked),
    }
    if scenario.most:
        found["most"] = _most(scenario, scenario.most)
    return found


def _most(scenario: Scenario, plates: tuple[Size, ...]) -> Answer:
    # The solver takes a third of a second to load, so it is loaded only where it is asked.
    from plates.capacity.exact.most import most

    best = most(scenario.bench, scenario.day, plates, scenario.budgets)
    return {"sittings": len(best.plan), "proven": best.proven}


def _proven_impossible(scenario: Scenario) -> bool:
    bench, day, sittings = scenario.bench, replace(scenario.day, start_every=1), scenario.sittings
    for number, sitting in enumerate(sittings):
        others = sittings[:number] + sittings[number + 1 :]
        if impossible(bench, day, others, sitting, scenario.budgets):
            return True
    return overloaded(bench, day, sittings) is not None


def _booked(scenario: Scenario) -> tuple[tuple[Booked, ...] | None, bool]:
    """A verified plan for the given sittings or None, and whether one may still exist."""
    bench, day, sittings, budgets = scenario.bench, scenario.day, scenario.sittings, scenario.budgets
    if _proven_impossible(scenario):
        return None, False
    booked = packed(bench, day, sittings, budgets)
    if booked is not None and not problems(bench, day, booked, budgets):
        return booked, True
    from plates.capacity.exact.replan import lay_out

    found = lay_out(bench, day, sittings, budgets, seconds=SECONDS)
    if found.plans:
        return tuple(Booked(*each) for each in zip(sittings, found.plans, strict=True)), True
    return None, not found.impossible


def _planned(number: int, booked: Booked) -> Answer:
    plan = booked.plan
    plates = [{step: clock(minute) for step, minute in asdict(plate).items()} for plate in plan.plates]
    return {
        "sitting": number,
        "settle": clock(plan.settle),
        "farewell": clock(plan.farewell),
        "plates": plates,
    }


def _starts(scenario: Scenario, booked: tuple[Booked, ...] | None, possible: bool) -> Answer:
    if booked is None or scenario.ask is None:
        asked = ["feasible", "starts"] if scenario.ask else ["feasible"]
        undecided = asked if booked is None and possible else []
        return {"starts": [], "refused": [], "unknown": undecided}
    from plates.capacity.exact.openings import decided

    case = Case(scenario.bench, scenario.day, booked, scenario.budgets)
    found = decided(case, scenario.ask, scenario.chances)
    return {
        "starts": [clock(start) for start in found.starts],
        "refused": [_refused(refusal) for refusal in found.refused],
        "unknown": [clock(start) for start in found.unknown],
    }


def _refused(refusal: Refusal) -> Answer:
    return {
        "start": clock(refusal.start),
        "why": refusal.why,
        "from": clock(refusal.begin),
        "to": clock(refusal.end),
        "lifted_by": refusal.lifted_by,
    }


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


def _risk(scenario: Scenario, booked: tuple[Booked, ...] | None) -> list[Answer]:
    if not booked:
        return []
    # numpy takes a moment to load, so it is loaded only where there are sittings to play.
    from plates.capacity.risk.assess import risk

    sitters = risk(scenario.bench, scenario.day, booked, scenario.chances).sitters
    return [
        {
            "sitting": number,
            "chance": round(sitter.chance, 4),
            "upper": round(sitter.upper, 4),
            "mean_wait": round(sitter.mean_wait, 2),
        }
        for number, sitter in enumerate(sitters)
    ]
