"""Whole days that the verifier passes, each broken by one minute, one place or one plan too many.

test_verify.py breaks one sitting planned by hand and reads the sentences; here nothing is chosen by hand. The rules are
those of the table in the design page s.3; that each of them is loosened and tightened exactly where the plans stand
says that no limit is off by one.
"""

import re
from dataclasses import replace

import pytest

from plates.capacity import Bench, Booked, Day, Span, problems
from plates.capacity.exact.replan import lay_out
from tests.plates.capacity import oracle
from tests.plates.capacity.days import random_day
from tests.plates.capacity.lone import later, moved

SHORT = Day(0, 240, 330, start_every=10)
BENCHES = [Bench(), Bench(operators=2, tank_places=2, wash_places=9, tolerance=9), Bench(wash_places=3)]


def planned(seed, bench):
    """A random day, planned anew as a whole, so that both gates' ways of planning are seen."""
    booked = random_day(seed, bench, requests=9, counts=(1, 2, 2, 3), day=SHORT)
    if seed % 2:
        plans = lay_out(bench, SHORT, [each.sitting for each in booked]).plans
        booked = [replace(each, plan=plan) for each, plan in zip(booked, plans, strict=True)]
    return bench, booked


DAYS = [planned(seed, BENCHES[seed % 3]) for seed in range(1, 7)]


def test_the_days_are_sound_and_full_enough():
    assert all(problems(bench, SHORT, booked) == () for bench, booked in DAYS)
    assert all(len(booked) >= 3 and max(len(each.plan.plates) for each in booked) > 1 for _, booked in DAYS)


def broken_turns(times, booked):
    """(words, plate, step, minute): the step a minute before or after what a rule allows, and its words.

    These rules are between one plate and the plate before it, or the sitter.
    """
    before = None
    for number, plate in enumerate(booked.plan.plates):
        if before is None:
            yield "the first pour starts", number, "pour", booked.plan.settle - 1
            yield "the first pour starts", number, "pour", booked.plan.settle + times.first_pour_within + 1
        else:
            yield "the next pour starts", number, "pour", before.pour + times.pour - 1
            yield "the next pour starts", number, "pour", before.fix + times.next_pour_within + 1
            yield "overlaps the plate before", number, "expose", before.expose + times.expose - 1
        yield "before the sitter is settled", number, "expose", booked.plan.settle + times.settle - 1
        yield "lift ends", number, "lift", SHORT.racks_empty_by - times.lift + 1
        before = plate


def broken_plates(times, booked):
    """The same for the rules between the steps of one plate."""
    for number, plate in enumerate(booked.plan.plates):
        poured, fixed = plate.pour + times.pour, plate.fix + times.fix
        developed, bath, wash = plate.develop + times.develop, times.sensitise, times.wash
        for words, step, minute in (
            ("sensitise starts", "tank_in", poured - 1),
            ("sensitise starts", "tank_in", poured + 1),
            ("sensitise ends", "tank_out", plate.tank_in + bath.least - 1),
            ("sensitise ends", "tank_out", plate.tank_in + bath.most + 1),
            ("expose starts", "expose", plate.tank_out + times.load - 1),
            ("develop starts", "develop", plate.expose + times.expose - 1),
            ("develop (wet window) ends", "develop", plate.tank_out + times.wet_window - times.develop + 1),
            ("fix starts", "fix", developed - 1),
            ("fix starts", "fix", developed + times.fix_within + 1),
            ("wash starts", "wash_in", fixed - 1),
            ("wash starts", "wash_in", fixed + 1),
            ("wash ends", "lift", plate.wash_in + wash.least - 1),
            ("wash ends", "lift", plate.wash_in + wash.most + 1),
        ):
            yield words, number, step, minute


def broken_sittings(bench, booked):
    """The same for what a sitting has but once."""
    times, start = bench.timings, booked.sitting.start
    fixed = max(plate.fix for plate in booked.plan.plates) + times.fix
    yield "settle starts", None, "settle", start - 1
    yield "settle starts", None, "settle", start + bench.tolerance + 1
    yield "farewell starts", None, "farewell", fixed - 1
    yield "farewell starts", None, "farewell", fixed + times.farewell_within + 1
    yield "farewell ends", None, "farewell", SHORT.closes - times.farewell + 1


def broken(bench, booked):
    """(words, number of the sitting, the day broken) for every rule of every sitting and plate."""
    for number, each in enumerate(booked):
        before, after = booked[:number], booked[number + 1 :]
        for words, plate, step, minute in (
            *broken_turns(bench.timings, each),
            *broken_plates(bench.timings, each),
            *broken_sittings(bench, each),
        ):
            yield words, number, [*before, moved(each, plate, **{step: minute}), *after]


@pytest.fixture(scope="module")
def mutants():
    return [(bench, *mutant) for bench, booked in DAYS for mutant in broken(bench, booked)]


def test_every_mutant_is_named_with_its_sitting_by_the_rule_it_breaks(mutants):
    missed = []
    for bench, words, number, day in mutants:
        who = (f"Sitting {number + 1}:", f"Sitting {number + 1},")
        if not any(text.startswith(who) and words in text for text in problems(bench, SHORT, day)):
            missed.append((words, number))

    assert missed == []
    assert len({words for _, words, _, _ in mutants}) == 16 < len(mutants) / 60


# What one sitting takes of each limit.
TAKEN = {
    "tolerance": lambda bench, each: each.plan.settle - each.sitting.start,
    "first_pour_within": lambda bench, each: each.plan.plates[0].pour - each.plan.settle,
    "next_pour_within": lambda bench, each: max(
        (b.pour - a.fix for a, b in zip(each.plan.plates, each.plan.plates[1:], strict=False)), default=-999
    ),
    "wet_window": lambda bench, each: max(
        plate.develop + bench.timings.develop - plate.tank_out for plate in each.plan.plates
    ),
    "fix_within": lambda bench, each: max(
        plate.fix - plate.develop - bench.timings.develop for plate in each.plan.plates
    ),
    "sensitise": lambda bench, each: max(plate.tank_out - plate.tank_in for plate in each.plan.plates),
    "wash": lambda bench, each: max(plate.lift - plate.wash_in for plate in each.plan.plates),
    "farewell_within": lambda bench, each: (
        each.plan.farewell - max(plate.fix for plate in each.plan.plates) - bench.timings.fix
    ),
}


def limited(bench, name, most):
    """The bench with one of its limits set; None where such a bench is refused."""
    if name == "tolerance":
        return replace(bench, tolerance=most) if most >= 0 else None
    times = bench.timings
    lowest = {"sensitise": 3, "wash": 60, "wet_window": 5, "first_pour_within": 4}.get(name, 0)
    if most < lowest:
        return None
    value = Span(getattr(times, name).least, most) if name in ("sensitise", "wash") else most
    return replace(bench, timings=replace(times, **{name: value}))


@pytest.mark.parametrize("name", TAKEN)
def test_a_limit_may_be_what_the_plans_take_and_not_one_less(name):
    tightened = 0
    for bench, booked in DAYS:
        taken = max(TAKEN[name](bench, each) for each in booked)
        just, below = limited(bench, name, taken), limited(bench, name, taken - 1)
        assert just is None or problems(just, SHORT, booked) == ()
        assert below is None or problems(below, SHORT, booked) != ()
        tightened += below is not None

    assert tightened > 0


@pytest.mark.parametrize(
    ("name", "field"),
    [("operators",) * 2, ("tank", "tank_places"), ("wash", "wash_places"), ("sitters", "sitters_at_once")],
)
def test_a_bench_may_have_what_the_plans_hold_at_once_and_not_one_less(name, field):
    # The most held at once is counted by the second judge's sweep over interval ends.
    for bench, booked in DAYS:
        held = [taken[1:] for each in booked for taken in oracle.intervals(bench, each) if taken[0] == name]
        most = oracle.peak(held)

        assert problems(replace(bench, **{field: most}), SHORT, booked) == ()
        if most > 1:
            said = problems(replace(bench, **{field: most - 1}), SHORT, booked)
            assert any(f"needs {most} from minute" in text for text in said)


def test_a_day_may_end_when_the_plans_do_and_not_a_minute_before():
    for bench, booked in DAYS:
        gone = max(each.plan.farewell for each in booked) + bench.timings.farewell
        racked = max(plate.lift for each in booked for plate in each.plan.plates) + bench.timings.lift

        assert problems(bench, replace(SHORT, closes=gone, racks_empty_by=racked), booked) == ()
        assert problems(bench, replace(SHORT, closes=gone - 1), booked) != ()
        assert problems(bench, replace(SHORT, racks_empty_by=racked - 1), booked) != ()
        opens = min(each.sitting.start for each in booked)
        assert problems(bench, replace(SHORT, opens=opens), booked) == ()
        assert problems(bench, replace(SHORT, opens=opens + 1), booked) != ()


def test_plans_exchanged_between_sittings_and_plates_are_found():
    for bench, booked in DAYS:
        for one, each in enumerate(booked):
            plates = each.plan.plates
            if len(plates) > 1:
                turned = replace(each, plan=replace(each.plan, plates=plates[::-1]))
                assert problems(bench, SHORT, [*booked[:one], turned, *booked[one + 1 :]]) != ()
            for other in booked[one + 1 :]:
                if len(other.plan.plates) == len(plates) and other.sitting.start != each.sitting.start:
                    swapped = [Booked(each.sitting, other.plan), Booked(other.sitting, each.plan)]
                    assert problems(bench, SHORT, swapped) != ()


OVERLOAD = re.compile(
    r"(operator|tank|wash|sitters) needs (\d+) from minute (\d+) to (\d+), the bench has 1\."
)
NAMES = ("operator", "tank", "wash", "sitters")


def test_on_a_bench_of_one_each_the_minutes_held_more_than_once_are_named_and_no_others():
    # Every sitting is there twice, so all that is held is held too often; the intervals are the second judge's.
    for bench, booked in DAYS:
        one = replace(bench, operators=1, tank_places=1, wash_places=1, sitters_at_once=1)
        named = {(name, minute): 0 for name in NAMES for minute in range(SHORT.racks_empty_by)}
        for text in problems(one, SHORT, booked * 2):
            if found := OVERLOAD.search(text):
                name, begin, end = found[1], int(found[3]), int(found[4])
                named.update({(name, minute): 1 for minute in range(begin, end)})
        held = [taken for each in booked for taken in oracle.intervals(bench, each)]  # "operators" there

        assert named == {
            (name, minute): int(any(h[0].startswith(name) and h[1] <= minute < h[2] for h in held))
            for name, minute in named
        }


def test_a_day_moved_as_a_whole_past_closing_is_found():
    assert all(problems(bench, SHORT, [later(each, 240) for each in booked]) for bench, booked in DAYS)
