"""Gates 2 and 3 at the moment of sale: what gaps do not hold is planned anew, and a refusal is the last word."""

import pytest

from plates.capacity import Bench, Budget, Chances, Sitting, admit, planned, problems
from plates.capacity.exact.admission import admit_exactly
from tests.plates.capacity.days import DAY, QUARTER, random_day

BENCH = Bench(sitters_at_once=2)


def refused_by_gaps():
    """Days with a request that gaps do not hold, as booked and asked."""
    for seed in range(40):
        booked = random_day(seed, BENCH, requests=12, counts=(1,), sizes=(QUARTER,))
        for start in range(0, 465, 15):
            asked = Sitting(start, (QUARTER,))
            if not admit(BENCH, DAY, booked, asked).plans:
                yield booked, asked


@pytest.fixture(scope="module")
def answers():
    found = []
    for booked, asked in refused_by_gaps():
        found.append((booked, asked, admit_exactly(BENCH, DAY, booked, asked, starts=(0, 240))))
        if len(found) == 24:
            return found
    raise AssertionError("too few days")


def test_some_of_what_gaps_refuse_is_possible_and_some_is_not(answers):
    admitted = [admission for _, _, admission in answers if admission.plans]

    assert 3 <= len(admitted) <= 21


def test_every_plan_is_sound_and_keeps_every_promised_start(answers):
    for booked, asked, admission in answers:
        if admission.plans:
            whole = planned(booked, admission.plans, asked)
            assert problems(BENCH, DAY, whole) == ()


def test_every_refusal_has_a_reason_and_the_nearest_of_the_starts_it_was_told(answers):
    refusals = [admission.refusal for _, _, admission in answers if not admission.plans]

    assert {refusal.why for refusal in refusals} <= {"operator", "tank", "wash", "sitters", "closing"}
    assert all(refusal.nearest == (0, 240) for refusal in refusals)


def test_a_remedy_that_is_named_lifts_the_refusal(answers):
    """The bench with one more of what is named takes the sitting, planned anew; checked for what a bench has."""
    checked = 0
    for booked, asked, admission in answers:
        refusal = admission.refusal
        resource = refusal.lifted_by.removesuffix("+1") if refusal and refusal.lifted_by else ""
        if resource in ("operators", "tank_places", "wash_places", "sitters_at_once"):
            more = Bench(**{"sitters_at_once": 2} | {resource: getattr(BENCH, resource) + 1})
            assert admit_exactly(more, DAY, booked, asked).plans
            checked += 1
    assert checked >= 3


def test_what_cannot_be_decided_in_time_is_refused_as_undecided():
    booked, asked = next(refused_by_gaps())

    refusal = admit_exactly(BENCH, DAY, booked, asked, starts=(30,), seconds=1e-9).refusal

    assert (refusal.why, refusal.begin, refusal.nearest) == ("undecided", asked.start, (30,))


def test_an_empty_stock_is_refused_without_planning():
    refusal = admit_exactly(BENCH, DAY, [], Sitting(0, (QUARTER,)), [Budget("fixer", 0)]).refusal

    assert (refusal.why, refusal.lifted_by) == ("budget:fixer", "fixer+1")


def test_a_plan_in_which_somebody_waits_too_often_is_refused_for_it():
    strict = Chances(chance_limit=0.001, late_sd=20)
    booked = random_day(7, BENCH, requests=6, counts=(1,), sizes=(QUARTER,))
    start = next(each.sitting.start for each in booked)

    refusal = admit_exactly(BENCH, DAY, booked, Sitting(start, (QUARTER,)), chances=strict).refusal

    assert refusal.why == "waiting"


def test_a_day_whose_stored_plans_clash_is_mended_by_the_way():
    (one,) = random_day(1, BENCH, requests=1, counts=(1,), sizes=(QUARTER,))
    clashing = [one, one]
    assert problems(BENCH, DAY, clashing) != ()

    asked = Sitting((one.sitting.start + 120) % 420 // 15 * 15, (QUARTER,))
    admission = admit_exactly(BENCH, DAY, clashing, asked)

    assert problems(BENCH, DAY, planned(clashing, admission.plans, asked)) == ()
