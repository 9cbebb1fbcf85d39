"""Days to play: a lone sitting, one more sitting on a day, days filled at random."""

from dataclasses import replace
from functools import cache

from plates.capacity import Bench, Booked, Sitting
from plates.capacity.problem.case import Case
from tests.plates.capacity.days import DAY, QUARTER, random_day


def with_one_more(bench, booked, asked, day=DAY):
    plan = Case(bench, replace(day, start_every=1), tuple(booked)).insert(asked)
    return [*booked, Booked(asked, plan)] if plan else None


def lone(bench=None, start=100):
    return with_one_more(bench or Bench(), [], Sitting(start, (QUARTER,)))


@cache
def filled(seed, operators=1):
    return tuple(random_day(seed, Bench(operators=operators), requests=10))
