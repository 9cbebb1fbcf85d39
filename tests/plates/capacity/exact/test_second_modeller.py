"""Small bench days modelled a second time, in the words of a public job-shop modeller, and decided by it.

PyJobShop 0.0.9 (MIT) has tasks, renewable resources and lags between starts and ends; a most time is a lag the other
way with a minus. Rules: the table of the design page s.3, put down here without a look at the engine's own model.
It shares the solver beneath with the engine; trying every plan of tiny days, in exact/test_replan.py, shares nothing.
"""

import random

import pytest
from pyjobshop import Model
from pyjobshop.Result import SolveStatus

from plates.capacity import Bench, Booked, Day, PlatePlan, Sitting, SittingPlan, Span, Timings, problems
from plates.capacity.exact.replan import lay_out
from tests.plates.capacity import oracle
from tests.plates.capacity.days import QUARTER, WHOLE

ATTENDED = ("pour", "load", "expose", "develop", "fix", "lift")


class SecondModel:
    """One day as tasks; times begin at 0, so the day must too."""

    def __init__(self, bench, day, sittings):
        self.bench, self.day, self.times = bench, day, bench.timings
        self.model = Model()
        self.model.set_objective()
        self.hands = self.model.add_renewable(bench.operators)
        self.tank = self.model.add_renewable(bench.tank_places)
        self.racks = self.model.add_renewable(bench.wash_places)
        self.chairs = self.model.add_renewable(bench.sitters_at_once)
        self.sittings = [self.sitting(each) for each in sittings]

    def task(self, place, minutes, amount=1, stretches=False, **limits):
        limits.setdefault("latest_end", max(self.day.closes, self.day.racks_empty_by))
        task = self.model.add_task(allow_idle=stretches, **limits)
        self.model.add_mode(task, [place], minutes, [amount])
        return task

    def sitting(self, sitting):
        """(settle, farewell, [plate tasks by name]) with every rule of one sitting."""
        model, times = self.model, self.times
        begins = {"earliest_start": sitting.start, "latest_start": sitting.start + self.bench.tolerance}
        settle = self.task(self.hands, times.settle, **begins)
        farewell = self.task(self.hands, times.farewell, latest_end=self.day.closes)
        stay = self.task(self.chairs, 0, stretches=True)
        model.add_start_at_start(settle, stay)
        model.add_end_at_end(farewell, stay)
        plates = [self.plate(size) for size in sitting.plates]
        for number, plate in enumerate(plates):
            model.add_end_before_start(settle, plate["expose"])
            model.add_end_before_start(plate["fix"], farewell)
            self.turn(settle, plates[number - 1] if number else None, plate)
        self.last_fix(plates, farewell)
        return settle, farewell, plates

    def plate(self, size):
        """The tasks of one plate and the lags between them."""
        model, times, hands = self.model, self.times, self.hands
        lasts = {"lift": {"latest_end": self.day.racks_empty_by}}
        tasks = {name: self.task(hands, getattr(times, name), **lasts.get(name, {})) for name in ATTENDED}
        bath = tasks["bath"] = self.task(self.tank, times.sensitise.least, stretches=True)
        wash = tasks["wash"] = self.task(self.racks, times.wash.least, size.wash_places, stretches=True)
        for before, after in (
            ("pour", "bath"),
            ("bath", "load"),
            ("fix", "wash"),
            ("wash", "lift"),
        ):
            model.add_end_at_start(tasks[before], tasks[after])
        for before, after in (("load", "expose"), ("expose", "develop"), ("develop", "fix")):
            model.add_end_before_start(tasks[before], tasks[after])
        model.add_start_before_start(tasks["load"], bath, -times.sensitise.most)
        model.add_start_before_start(tasks["lift"], wash, -times.wash.most)
        model.add_end_before_end(tasks["develop"], bath, -times.wet_window)
        model.add_start_before_end(tasks["fix"], tasks["develop"], -times.fix_within)
        return tasks

    def turn(self, settle, before, plate):
        """When a plate may be poured and exposed after the one before it, or after the settling."""
        model, times, pour = self.model, self.times, plate["pour"]
        if before is None:
            model.add_start_before_start(settle, pour)
            model.add_start_before_start(pour, settle, -times.first_pour_within)
            return
        model.add_end_before_start(before["pour"], pour)
        model.add_end_before_start(before["expose"], plate["expose"])
        model.add_start_before_start(pour, before["fix"], -times.next_pour_within)

    def last_fix(self, plates, farewell):
        """Some plate is fixed so shortly before the farewell: an optional mark stands beside one of them."""
        marks = []
        for plate in plates:
            mark = self.task(self.chairs, 0, 0, optional=True)
            self.model.add_end_at_start(plate["fix"], mark)
            self.model.add_start_before_start(farewell, mark, -self.times.farewell_within)
            marks.append(mark)
        self.model.add_select_exactly_one(marks)

    def solve(self):
        """The plans of the day, or None where there are none."""
        result = self.model.solve(display=False, num_workers=1, time_limit=30, random_seed=1)
        assert result.status in (SolveStatus.OPTIMAL, SolveStatus.FEASIBLE, SolveStatus.INFEASIBLE)
        if result.status == SolveStatus.INFEASIBLE:
            return None
        begins = {
            id(task): each.start for task, each in zip(self.model.tasks, result.best.tasks, strict=True)
        }
        return [self.plan(begins, *each) for each in self.sittings]

    @staticmethod
    def plan(begins, settle, farewell, plates):
        rows = [{name: begins[id(task)] for name, task in plate.items()} for plate in plates]
        steps = [
            PlatePlan(
                row["pour"], row["bath"], row["load"], row["expose"], row["develop"], row["fix"], row["wash"],
                row["lift"],
            )
            for row in rows
        ]  # fmt: skip
        return SittingPlan(begins[id(settle)], begins[id(farewell)], tuple(steps))


def small_day(seed):
    """Two to four sittings of one or two plates, close enough together that the bench may or may not hold them."""
    chance = random.Random(seed)
    wash, bath, load = chance.choice((12, 20, 60)), chance.choice((3, 5, 9)), chance.choice((0, 1))
    timings = Timings(
        settle=chance.choice((0, 2, 4, 11)), load=load, expose=chance.choice((2, 2, 5)),
        wet_window=load + 7 + chance.choice((0, 2, 4)), fix_within=chance.choice((0, 2)),
        wash=Span(wash, wash + chance.choice((0, 3, 20))), sensitise=Span(bath, bath + chance.choice((0, 1, 2))),
        farewell_within=chance.choice((0, 5)), next_pour_within=chance.choice((0, 4, 11)),
    )  # fmt: skip
    bench = Bench(
        operators=chance.choice((1, 2, 3)), tank_places=chance.choice((1, 1, 2)), wash_places=chance.randint(3, 6),
        sitters_at_once=chance.choice((1, 3, 4, 4)), tolerance=chance.randint(0, 9), timings=timings,
    )  # fmt: skip
    counts = chance.choice([(1, 1), (1, 2), (2, 2), (1, 1, 1), (1, 1, 1, 1), (2, 1, 1)])
    last = chance.choice((5, 20, 50))
    sittings = [
        Sitting(chance.randint(0, last), tuple(chance.choice((QUARTER, WHOLE)) for _ in range(count)))
        for count in counts
    ]
    closes = last + chance.randint(20, 70)
    return bench, Day(0, closes, last + wash + chance.randint(15, 60)), sittings


DAYS = [small_day(seed) for seed in range(160)]


@pytest.fixture(scope="module")
def decided():
    return [SecondModel(*day).solve() for day in DAYS]


def test_the_engine_decides_every_small_day_as_the_second_model_does(decided):
    found = [lay_out(*day, seconds=10) for day in DAYS]

    assert [bool(each.plans) for each in found] == [each is not None for each in decided]
    assert all(bool(each.plans) != each.impossible for each in found)


def test_the_days_show_both_answers_and_every_number_of_hands(decided):
    assert 50 < sum(plans is not None for plans in decided) < 110
    assert len({(day[0].operators, plans is not None) for day, plans in zip(DAYS, decided, strict=True)}) == 6


def test_the_plans_of_the_second_model_pass_both_judges(decided):
    # So the judges are not stricter than the rules, as far as another reading of the rules goes.
    for (bench, day, sittings), plans in zip(DAYS, decided, strict=True):
        if plans is not None:
            booked = [Booked(*each) for each in zip(sittings, plans, strict=True)]
            assert problems(bench, day, booked) == ()
            assert oracle.sound(bench, day, booked)
