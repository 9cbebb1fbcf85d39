"""Every plan there is for one sitting of a tiny day, and whether some of them go together: no solver, no engine.

Rules: tests/plates/capacity/oracle.py, which has them from the design page s.3. What is held at each minute is a
digit of a number to the base 16, so that days are added up by one addition.
"""

from itertools import product

from plates.capacity import Booked, PlatePlan, SittingPlan
from tests.plates.capacity import oracle

RESOURCES = {
    "operators": "operators",
    "tank": "tank_places",
    "wash": "wash_places",
    "sitters": "sitters_at_once",
}


def plate_plans(times, pours):
    """Every plate plan that is poured at one of these minutes, by its own lags."""
    slack = range(times.wet_slack + 1)
    baths = range(times.sensitise.least, times.sensitise.most + 1)
    washes = range(times.wash.least, times.wash.most + 1)
    for pour, bath, before, between, wait, wash in product(
        pours, baths, slack, slack, range(times.fix_within + 1), washes
    ):
        tank_in = pour + times.pour
        expose = tank_in + bath + times.load + before
        develop = expose + times.expose + between
        fix = develop + times.develop + wait
        wash_in = fix + times.fix
        yield PlatePlan(pour, tank_in, tank_in + bath, expose, develop, fix, wash_in, wash_in + wash)


def sitting_plans(bench, day, sitting):
    """Every sound plan of one sitting alone."""
    times = bench.timings
    for settle in range(sitting.start, sitting.start + bench.tolerance + 1):
        pours = range(settle, settle + times.first_pour_within + 1)
        for plates in _plates(times, pours, len(sitting.plates)):
            fixed = max(plate.fix for plate in plates) + times.fix
            for wait in range(times.farewell_within + 1):
                booked = Booked(sitting, SittingPlan(settle, fixed + wait, plates))
                if oracle.sound(bench, day, [booked]):
                    yield booked


def _plates(times, pours, count):
    for plate in plate_plans(times, pours):
        if count == 1:
            yield (plate,)
        else:
            following = range(plate.pour + times.pour, plate.fix + times.next_pour_within + 1)
            for rest in _plates(times, following, count - 1):
                yield (plate, *rest)


def held(bench, booked):
    """For each resource, what is held at each minute."""
    found = dict.fromkeys(RESOURCES, 0)
    for resource, begin, end, amount in oracle.intervals(bench, booked):
        found[resource] += sum(amount << 4 * minute for minute in range(begin, end))
    return tuple(found.values())


def some_day(bench, day, sittings):
    """Whether the sittings can all be run on one day; at most seven of anything may be held."""
    minutes = max(day.closes, day.racks_empty_by) + 1
    ones = sum(1 << 4 * minute for minute in range(minutes))
    biases = [(7 - getattr(bench, name)) * ones for name in RESOURCES.values()]
    days = {(0,) * len(RESOURCES)}
    for sitting in sittings:
        ways = {held(bench, booked) for booked in sitting_plans(bench, day, sitting)}
        days = {
            total
            for before, way in product(days, ways)
            for total in [tuple(a + b for a, b in zip(before, way, strict=True))]
            if not any((each + bias) & 8 * ones for each, bias in zip(total, biases, strict=True))
        }
    return bool(days)
