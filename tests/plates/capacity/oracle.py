"""A second judge of a day, written for the tests alone: lags as a table, resources by sweeping interval ends.

It shares nothing with the engine but the records that hold the numbers. Rules: design page s.3 (the table of
operations); a sitter is before one lens at a time.
"""

FREE = 10**9


def lags(bench, sitting, plan):
    """(from, to, least, most) for every pair of steps of a sitting that has a rule."""
    t = bench.timings
    yield sitting.start, plan.settle, 0, bench.tolerance
    before = None
    for plate in plan.plates:
        if before is None:
            yield plan.settle, plate.pour, 0, t.first_pour_within
        else:
            yield before.pour, plate.pour, t.pour, FREE
            yield before.fix, plate.pour, -FREE, t.next_pour_within
            yield before.expose, plate.expose, t.expose, FREE
        yield plate.pour, plate.tank_in, t.pour, t.pour
        yield plate.tank_in, plate.tank_out, t.sensitise.least, t.sensitise.most
        yield plate.tank_out, plate.expose, t.load, FREE
        yield plan.settle, plate.expose, t.settle, FREE
        yield plate.expose, plate.develop, t.expose, FREE
        yield plate.tank_out, plate.develop, 0, t.wet_window - t.develop
        yield plate.develop, plate.fix, t.develop, t.develop + t.fix_within
        yield plate.fix, plate.wash_in, t.fix, t.fix
        yield plate.wash_in, plate.lift, t.wash.least, t.wash.most
        yield plate.fix, plan.farewell, t.fix, FREE
        before = plate
    last = max(plate.fix for plate in plan.plates)
    yield last, plan.farewell, t.fix, t.fix + t.farewell_within


def intervals(bench, booked):
    """(resource, begin, end, amount) of everything a sitting holds."""
    t, plan = bench.timings, booked.plan
    yield "sitters", plan.settle, plan.farewell + t.farewell, 1
    yield "operators", plan.settle, plan.settle + t.settle, 1
    yield "operators", plan.farewell, plan.farewell + t.farewell, 1
    for size, plate in zip(booked.sitting.plates, plan.plates, strict=True):
        yield "tank", plate.pour + t.pour, plate.tank_out, 1
        yield "wash", plate.fix + t.fix, plate.lift, size.wash_places
        for step, begin in (
            ("pour", plate.pour), ("load", plate.tank_out), ("expose", plate.expose),
            ("develop", plate.develop), ("fix", plate.fix), ("lift", plate.lift),
        ):  # fmt: skip
            yield "operators", begin, begin + getattr(t, step), 1


def peak(held):
    """The most that is held at once, ends counted before starts at the same minute."""
    events = sorted(
        [(end, -amount) for _, end, amount in held] + [(begin, amount) for begin, _, amount in held]
    )
    level = most = 0
    for _, change in events:
        level += change
        most = max(most, level)
    return most


def sound(bench, day, booked):
    """Whether every rule of the page holds."""
    t = bench.timings
    for each in booked:
        for begin, end, least, most in lags(bench, each.sitting, each.plan):
            if not least <= end - begin <= most:
                return False
        if each.plan.settle < day.opens or each.sitting.start < day.opens:
            return False
        if each.plan.farewell + t.farewell > day.closes:
            return False
        if any(plate.lift + t.lift > day.racks_empty_by for plate in each.plan.plates):
            return False
    limits = {
        "sitters": bench.sitters_at_once, "operators": bench.operators,
        "tank": bench.tank_places, "wash": bench.wash_places,
    }  # fmt: skip
    held = [interval for each in booked for interval in intervals(bench, each)]
    return all(peak([h[1:] for h in held if h[0] == name]) <= limit for name, limit in limits.items())
