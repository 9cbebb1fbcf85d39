"""The judge of a late day finds every fault that is put in on purpose."""

from dataclasses import replace

import pytest

from plates.capacity import Bench
from plates.capacity.late.day import late_day
from plates.capacity.late.forward import shifted
from plates.capacity.late.progress import Made, Work, soonest
from plates.capacity.late.verify import faults
from tests.plates.capacity.days import DAY, QUARTER

BENCH = Bench()
NOW = 25
WORKS = [
    Work(soonest(BENCH, QUARTER, 0), (Made(poured=15, out=20),)),
    Work(soonest(BENCH, QUARTER, 40), (Made(),)),
]


@pytest.fixture
def late():
    return late_day(BENCH, DAY, WORKS, NOW)


def judged(late):
    return faults(BENCH, DAY, WORKS, late, NOW)


def with_step(late, what, **changes):
    """The same day with one step of the plate under way changed."""
    first, *others = late.sittings
    left = tuple(
        held._replace(**{name: getattr(held, name) + by for name, by in changes.items()})
        if held.what == what
        else held
        for held in first.left
    )
    return replace(late, sittings=(replace(first, left=left), *others))


def with_plan(late, minutes):
    first, second = late.sittings
    return replace(late, sittings=(first, replace(second, plan=shifted(second.plan, minutes))))


def test_a_sound_day_passes(late):
    assert judged(late) == ()


@pytest.mark.parametrize("what", ["expose", "develop", "fix", "lift"])
def test_a_step_cut_short_is_found(late, what):
    assert f"Sitting 1, plate 1: {what} lasts" in " ".join(judged(with_step(late, what, end=-1)))


@pytest.mark.parametrize(("what", "after"), [("develop", "develop"), ("fix", "fix"), ("lift", "lift")])
def test_a_step_before_the_end_of_the_one_ahead_of_it_is_found(late, what, after):
    early = with_step(late, what, begin=-1, end=-1)

    assert f"{after} begins at minute" in " ".join(judged(early))


def test_a_step_that_is_left_out_is_found(late):
    first, *others = late.sittings
    left = tuple(held for held in first.left if held.what != "develop")

    assert "Sitting 1, plate 1: develop is missing." in judged(
        replace(late, sittings=(replace(first, left=left), *others))
    )


def test_a_plate_developed_after_its_wet_window_is_found_unless_it_is_given_up(late):
    dry = with_step(late, "develop", begin=6, end=6)

    assert "after its wet window, and is not given up" in " ".join(judged(dry))
    assert "wet window" not in " ".join(judged(replace(dry, lost=((0, 0),))))


def test_a_sitter_begun_before_the_promise_is_found(late):
    assert "Sitting 2: settles at minute 39, before it was promised." in judged(with_plan(late, -1))


def test_a_sitter_begun_in_the_past_is_found(late):
    assert "nothing had been pressed for it" in " ".join(judged(with_plan(late, -30)))


def test_hands_that_are_needed_twice_are_found(late):
    first, second = late.sittings
    twice = replace(late, sittings=(first, replace(second, left=(*second.left, *second.left))))

    assert "operator needs 2, the bench has 1." in " ".join(judged(twice))
