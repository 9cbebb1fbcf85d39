"""Playing the stored plan forward: each sitting as it was planned, as soon as all before it lets it.

What begun work still holds stands first. It is what an operator would do without a re-plan, so no re-plan may end
worse; and on a day that is in time it changes nothing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from plates.capacity.late.progress import Expected, Moment, Work, expected
from plates.capacity.problem.bench import Bench, Day
from plates.capacity.problem.timeline import Booked, Occupation, SittingPlan, occupations


class Tally:
    """What is held of each resource at each minute from now on."""

    def __init__(self, bench: Bench, at: Moment, held: Iterable[Occupation]) -> None:
        self.now = at.now
        self.most = {
            "operator": bench.operators,
            "tank": bench.tank_places,
            "wash": bench.wash_places,
            "sitter": bench.sitters_at_once,
        }
        self._held = {resource: [0] * (at.last - at.now + 1) for resource in self.most}
        for each in held:
            self.take(each)

    def take(self, taken: Occupation, sign: int = 1) -> None:
        minutes = self._held[taken.resource]
        for minute in self._span(taken):
            minutes[minute - self.now] += sign * taken.amount

    def take_if_free(self, wanted: Sequence[Occupation]) -> bool:
        """Take all of it, or nothing where more than the bench has would be held at some minute."""
        for each in wanted:
            self.take(each)
        fits = not any(self._over(each) for each in wanted)
        if not fits:
            for each in wanted:
                self.take(each, -1)
        return fits

    def _over(self, taken: Occupation) -> bool:
        minutes, most = self._held[taken.resource], self.most[taken.resource]
        return any(minutes[minute - self.now] > most for minute in self._span(taken))

    def _span(self, taken: Occupation) -> range:
        return range(max(taken.begin, self.now), taken.end)


def played_forward(
    bench: Bench, day: Day, works: Sequence[Work], begun: dict[int, Expected], at: Moment
) -> tuple[Expected, ...]:
    """One expectation for each work: the begun ones as given, the others in the order of their stored plans."""
    tally = Tally(bench, at, (held for each in begun.values() for held in each.left))
    ahead = [place for place in range(len(works)) if place not in begun]
    found, before = dict(begun), day.opens
    for place in sorted(ahead, key=lambda place: works[place].booked.plan.settle):
        plan = _soonest(bench, works[place], tally, at, before)
        found[place] = expected(bench, day, works[place], plan)
        before = plan.settle
    return tuple(found[place] for place in range(len(works)))


def _soonest(bench: Bench, work: Work, tally: Tally, at: Moment, before: int) -> SittingPlan:
    """The stored plan, shifted as a whole by as few minutes as will do."""
    plan = work.booked.plan
    earliest = max(at.settled_from(plan, bench.timings.settle), before)
    shift = max(0, earliest - plan.settle, at.now - plan.plates[0].pour)
    while True:
        moved = shifted(plan, shift)
        if tally.take_if_free(occupations(bench, Booked(work.booked.sitting, moved))):
            return moved
        shift += 1


def shifted(plan: SittingPlan, minutes: int) -> SittingPlan:
    """The same plan, so many minutes later."""
    moved = (
        replace(plate, **{step: getattr(plate, step) + minutes for step in plate.__slots__})
        for plate in plan.plates
    )
    return SittingPlan(plan.settle + minutes, plan.farewell + minutes, tuple(moved))
