"""Works out the order of a planned day from its plans."""

from collections.abc import Iterator, Sequence
from itertools import accumulate

from plates.capacity.problem.bench import Bench
from plates.capacity.problem.timeline import Booked
from plates.capacity.risk.order import Order, Place, Step, handed_on, plates_of, turns_of


def order_of(bench: Bench, booked: Sequence[Booked]) -> Order:
    """The order of the plans of a day, which should be sound."""
    return _Ordering(bench, booked).order()


class _Ordering:
    def __init__(self, bench: Bench, booked: Sequence[Booked]) -> None:
        self.bench, self.booked, self.plans = bench, booked, list(plates_of(booked))
        every = turns_of(bench, booked)
        self.turns = tuple(turn for turn in every if turn.step != "lift")
        self.at = {(turn.step, turn.sitting, turn.plate): place for place, turn in enumerate(self.turns)}
        done = list(accumulate((turn.step != "lift" for turn in every), initial=0))
        self.owed = {turn.plate: done[place] for place, turn in enumerate(every) if turn.step == "lift"}
        self.calm = self._free_of("load", "fix")
        self.dry = self._free_of("load", "develop")
        self.seat_after = self._seats()

    def order(self) -> Order:
        sittings = range(len(self.booked))
        first = {
            turn.sitting: place for place, turn in reversed([*enumerate(self.turns)]) if turn.step == "pour"
        }
        return Order(
            turns=self.turns,
            calm=self.calm,
            plates=tuple(self._places()),
            seat_after=self.seat_after,
            starts=tuple(each.sitting.start for each in self.booked),
            first_pour=tuple(first[number] for number in sittings),
            farewell=tuple(self.at["farewell", number, -1] for number in sittings),
            # Owed in the order of the plan.
            lifts=tuple(self.owed),
        )

    def _plates(self) -> range:
        return range(len(self.plans))

    def _turn(self, step: Step, plate: int) -> int:
        return self.at[step, self.plans[plate][0], plate]

    def _free_of(self, begins: Step, ends: Step) -> tuple[bool, ...]:
        """Before which turns fewer plates than hands stand between two steps."""
        return tuple(count < self.bench.operators for count in self._between(begins, ends, self._plates()))

    def _seats(self) -> tuple[int | None, ...]:
        farewell = self.bench.timings.farewell
        stays = [(each.plan.settle, each.plan.farewell + farewell, 1) for each in self.booked]
        return tuple(next(iter(each), None) for each in handed_on(stays, self.bench.sitters_at_once)[1])

    def _between(self, begins: Step, ends: Step, plates: Sequence[int]) -> list[int]:
        """Before each turn and at the end of the day, how many of the plates stand between two steps."""
        change = [0] * (len(self.turns) + 1)
        for plate in plates:
            change[self._turn(begins, plate) + 1] += 1
            change[self._turn(ends, plate) + 1] -= 1
        return list(accumulate(change))

    def _places(self) -> Iterator[Place]:
        bench, plans = self.bench, self.plans
        baths = [(plan.tank_in, plan.tank_out, 1) for _, _, plan in plans]
        washes = [(plan.wash_in, plan.lift, places) for _, places, plan in plans]
        tanks, behind = handed_on(baths, bench.tank_places)
        bathing = [
            self._between("pour", "load", [plate for plate in self._plates() if tanks[plate] == [tank]])
            for tank in range(bench.tank_places)
        ]
        _, washed_after = handed_on(washes, bench.wash_places)
        for plate, (number, _, plan) in enumerate(plans):
            [tank] = tanks[plate]
            yield Place(
                sitting=number,
                follows=plate > 0 and plans[plate - 1][0] == number,
                tank=tank,
                behind=self._behind(plate, behind[plate]),
                pour_from=plan.pour if self._woven("pour", "develop", plate) else None,
                load_from=plan.tank_out if self._woven("load", "develop", plate) else None,
                washed_after=washed_after[plate],
                again_at=self._again(plate, bathing[tank]),
                owed_at=self.owed[plate],
                lift=plan.lift,
            )

    def _behind(self, plate: int, before: Sequence[int]) -> int | None:
        poured = self._turn("pour", plate)
        return next((each for each in before if self._turn("load", each) > poured), None)

    def _woven(self, begins: Step, ends: Step, plate: int) -> bool:
        """Whether a plate begun ahead of its time might then lie in the bath, or stand wet, for somebody else."""
        first, last = self._turn(begins, plate) + 1, self._turn(ends, plate)
        waits = any(turn.step in ("settle", "pour") for turn in self.turns[first:last])
        lifts = any(first <= owed <= last for owed in self.owed.values())
        return self.bench.operators > 1 or waits or lifts

    def _again(self, plate: int, bathing: Sequence[int]) -> int:
        """After its fix and before its lift: when its tank place is free, and if possible no other plate wet."""
        first, last = self._turn("fix", plate) + 1, self.owed[plate]
        free = [place for place in range(first, last) if not bathing[place]]
        return next((place for place in free if self.dry[place]), free[0] if free else max(first, last))
