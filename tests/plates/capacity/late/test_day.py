"""A late day: what it may change, and what it must not. Bench() has the minutes of the design page s.3."""

from dataclasses import replace

import pytest

from plates.capacity import Bench, Booked, CapacityValueError, problems
from plates.capacity.late.begun import begun_work
from plates.capacity.late.day import grade, late_day
from plates.capacity.late.forward import played_forward
from plates.capacity.late.progress import Made, Moment, Work, soonest
from plates.capacity.late.verify import faults
from tests.plates.capacity.days import DAY, QUARTER
from tests.plates.capacity.late.days import a_bad_day, in_order, under_way

BENCH = Bench()
DAYS = range(6)
BAD_DAYS = range(8)


def apart(gap, count=4, first=0):
    """Sittings of one plate, each planned without a pause, so many minutes apart."""
    return [soonest(BENCH, QUARTER, first + gap * number) for number in range(count)]


def begins(late):
    return [each.begins for each in late.sittings]


@pytest.mark.parametrize("seed", DAYS)
@pytest.mark.parametrize("now", [-30, 0, 61, 97, 180, 300])
def test_a_day_that_is_in_time_is_left_as_it_was_planned(seed, now):
    booked = in_order(seed, BENCH)

    late = late_day(BENCH, DAY, under_way(booked, now), now)

    ahead = [(each.plan, was.plan) for each, was in zip(late.sittings, booked, strict=True) if each.plan]
    assert [plan for plan, _ in ahead] == [was for _, was in ahead]
    assert (late.worst, late.over, late.lost, late.proven) == (0, 0, (), True)


@pytest.mark.parametrize("behind", [1, 10, 30])
def test_a_delay_smaller_than_the_pause_between_sittings_moves_no_promise(behind):
    # By hand: a sitting of one plate takes 18 minutes here, so an hour's distance leaves 42 of them.
    booked = apart(60)

    now = behind + 5  # the first plate is being poured

    late = late_day(BENCH, DAY, under_way(booked, now, behind), now)

    assert begins(late)[1:] == [60, 120, 180]
    assert all(each.kept for each in late.sittings)


def test_who_comes_after_a_sitting_that_began_late_is_expected_when_the_hands_are_free():
    # By hand: poured at 24 instead of 4, the bath is left at 29 at the soonest, fixed at 36, the farewell at 38. The
    # next sitter, promised at 20, can be settled while the plate is in its bath, from 26, and is poured for at 38.
    booked = apart(20, count=2)
    works = [Work(booked[0], (Made(poured=24),)), Work(booked[1], (Made(),))]

    late = late_day(BENCH, DAY, works, 25)

    assert late.sittings[0].begins == 20
    assert (late.sittings[1].begins, late.sittings[1].late) == (26, 1)
    assert late.proven


@pytest.mark.parametrize("seed", BAD_DAYS)
def test_the_judge_passes_every_late_day(seed):
    works, now = a_bad_day(seed, BENCH)

    late = late_day(BENCH, DAY, works, now)

    assert faults(BENCH, DAY, works, late, now) == ()


@pytest.mark.parametrize("seed", BAD_DAYS)
def test_nothing_that_has_begun_moves(seed):
    works, now = a_bad_day(seed, BENCH)

    late = late_day(BENCH, DAY, works, now)

    for work, each in zip(works, late.sittings, strict=True):
        for number, plate in enumerate(work.made):
            done = {
                what
                for what, minute in (
                    ("pour", plate.out),
                    ("sensitise", plate.out),
                    ("expose", plate.exposed),
                    ("develop", plate.developed),
                    ("fix", plate.fixed),
                    ("lift", plate.lifted),
                )
                if minute is not None or plate.spoilt
            }
            assert not done & {held.what for held in each.left if held.plate == number}
            wash = [held.begin for held in each.left if (held.plate, held.what) == (number, "wash")]
            assert plate.fixed is None or plate.lifted is not None or wash == [plate.fixed] or plate.spoilt


@pytest.mark.parametrize("seed", BAD_DAYS)
def test_it_never_ends_worse_than_playing_the_stored_plan_forward(seed):
    works, now = a_bad_day(seed, BENCH)
    at = Moment.of(BENCH, DAY, works, now)

    late = late_day(BENCH, DAY, works, now)

    forward = played_forward(BENCH, DAY, works, begun_work(BENCH, DAY, works, at).sittings, at)
    assert grade(works, late) <= grade(works, replace(late, sittings=forward))


@pytest.mark.parametrize("seed", BAD_DAYS)
def test_the_verifier_of_sales_passes_what_has_not_begun_with_its_start_moved(seed):
    works, now = a_bad_day(seed, BENCH)

    late = late_day(BENCH, DAY, works, now)

    ahead = [
        Booked(replace(work.booked.sitting, start=each.plan.settle), each.plan)
        for work, each in zip(works, late.sittings, strict=True)
        if each.plan
    ]
    assert problems(BENCH, replace(DAY, closes=1300, racks_empty_by=1400), ahead) == ()


def test_a_wet_plate_goes_before_a_sitter_who_waits():
    # By hand: out of the bath at 20 it has to be developed by 28; exposing and developing take 4 minutes.
    booked = apart(20, count=2)
    works = [Work(booked[0], (Made(poured=15, out=20),)), Work(booked[1], (Made(),))]

    late = late_day(BENCH, DAY, works, 23)

    developed = next(held.end for held in late.sittings[0].left if held.what == "develop")
    assert developed <= 28
    assert late.lost == ()


@pytest.mark.parametrize(("now", "lost"), [(24, ()), (26, ()), (27, ((0, 0),)), (40, ((0, 0),))])
def test_a_wet_window_that_cannot_be_met_any_more_is_told(now, lost):
    # By hand: out at 20 with 8 minutes of wet life. Exposing may have begun 2 minutes before now, developing
    # takes 2 more: developed at now + 2 at the soonest.
    works = [Work(apart(60)[0], (Made(poured=15, out=20),))]

    assert late_day(BENCH, DAY, works, now).lost == lost


def test_of_two_wet_plates_and_one_pair_of_hands_as_few_as_possible_are_lost():
    # By hand: both out at 20, it is 24. Each needs 4 minutes of hands, one of them has 2 behind it at the most:
    # one can be developed at 26, the other at 30, after its 28.
    booked = [soonest(BENCH, QUARTER, 0), soonest(BENCH, QUARTER, 5)]
    works = [Work(each, (Made(poured=15, out=20),)) for each in booked]

    assert len(late_day(BENCH, DAY, works, 24).lost) == 1


def test_who_cannot_be_kept_within_the_hours_is_named():
    # By hand: promised at 440 of a day that closes at 480, and it is 478. Settling may have begun 4 minutes
    # before, as nobody presses for it: from 474 to 492, 29 minutes after 445.
    works = [Work(soonest(BENCH, QUARTER, 440), (Made(),))]

    [last] = late_day(BENCH, DAY, works, 478).sittings

    assert (last.begins, last.late, last.over, last.kept) == (474, 29, 12, False)


def test_a_retake_is_work_like_any_other():
    # By hand: the day has nothing but this retake and a sitter an hour later.
    works = [Work(soonest(BENCH, QUARTER, 30), (Made(),)), Work(soonest(BENCH, QUARTER, 60), (Made(),))]

    late = late_day(BENCH, DAY, works, 30)

    assert begins(late) == [30, 60]


@pytest.mark.parametrize(
    ("steps", "sentence"),
    [
        ({"out": 5}, "made: must know every step before the last one that is known"),
        ({"poured": 5, "out": 4}, "made: must have its steps one after the other"),
        ({"spoilt": True}, "made: must have been poured before it is spoilt"),
    ],
)
def test_a_plate_that_no_ledger_can_hold_is_refused(steps, sentence):
    with pytest.raises(CapacityValueError) as refused:
        Made(**steps)

    assert str(refused.value) == sentence


def test_a_work_tells_of_each_of_its_plates():
    with pytest.raises(CapacityValueError) as refused:
        Work(apart(60)[0], ())

    assert str(refused.value) == "made: must tell of every plate of the sitting"


@pytest.mark.parametrize("operators", [1, 2])
def test_the_quickest_retake_is_sound_by_the_verifier_of_sales(operators):
    bench = Bench(operators=operators)

    assert problems(bench, DAY, [soonest(bench, QUARTER, 30)]) == ()
