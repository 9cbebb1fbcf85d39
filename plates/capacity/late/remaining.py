"""What is still to be done for plates that have been poured: their steps on a board, the wet ones with their window.

What has happened may have broken a longest time already; an `Allowance` says by how much such a rule may be exceeded.
"""

from dataclasses import dataclass, field

from plates.capacity.exact.model import Board, Minute
from plates.capacity.late.progress import Made, Moment, Work
from plates.capacity.problem.bench import Bench, Day, Size
from plates.capacity.problem.timeline import Occupation, PlatePlan, Resource


@dataclass
class Allowance:
    """By how much begun work may exceed its longest times: amounts to be found, or `given` by an earlier search.

    as_planned: nothing may be exceeded, and every step keeps the minute of its stored plan.
    """

    board: Board
    most: int
    as_planned: bool = False
    given: "Excess | None" = None
    extras: list[Minute] = field(default_factory=list)
    dry: list[Minute] = field(default_factory=list)

    def extra(self) -> Minute:
        """Minutes beyond a longest time."""
        known = None if self.given is None else self.given.extras[len(self.extras)]
        self.extras.append(self._amount(self.most) if known is None else known)
        return self.extras[-1]

    def window_lost(self) -> Minute:
        """1 where a wet window is not met, else 0."""
        known = None if self.given is None else self.given.dry[len(self.dry)]
        self.dry.append(self._amount(1) if known is None else known)
        return self.dry[-1]

    def _amount(self, most: int) -> Minute:
        return self.board.amount(0, 0 if self.as_planned else most)


@dataclass(frozen=True)
class Excess:
    """Amounts of an allowance as they were found, in the order in which they were asked for."""

    extras: tuple[int, ...]
    dry: tuple[int, ...]


class Tail:
    """The steps left of one sitting that has begun. `running`: what the hands are in the middle of."""

    def __init__(
        self, board: Board, bench: Bench, day: Day, work: Work, at: Moment, allow: Allowance
    ) -> None:
        self.board, self.times, self.work, self.at, self.allow = board, bench.timings, work, at, allow
        self.opens = day.opens
        self.held: list[tuple[Resource, Minute, Minute, int, str, int | None]] = []
        self.running: list[tuple[int, int, str, int]] = []
        self.dry: dict[int, Minute] = {}
        self.fixes: list[Minute] = []
        self._before: tuple[Minute, Minute, Minute] | None = None
        for number in self._in_turn():
            self._plate(number, work.booked.sitting.plates[number], work.made[number])
        self.gone = self._farewell()

    def _in_turn(self) -> list[int]:
        """The plates in the order in which they were poured, then those that are still to be."""
        left = [number for number, made in enumerate(self.work.made) if not made.spoilt]

        def turn(number: int) -> tuple[bool, int]:
            poured = self.work.made[number].poured
            return poured is None, poured or 0

        return sorted(left, key=turn)

    def _minute(self, earliest: int, planned: int) -> Minute:
        """A start to be found, where the allowance does not keep the planned one."""
        first, last = (planned, planned) if self.allow.as_planned else (self.opens, self.at.last)
        return self.board.minute(max(first, earliest) - self.opens, last - self.opens)

    def _planned(self, number: int) -> PlatePlan:
        return self.work.booked.plan.plates[number]

    def _known(self, minute: int) -> int:
        return minute - self.opens

    def _hands(self, what: str, number: int | None, begin: Minute, minutes: int) -> Minute:
        if minutes:
            self.held.append(("operator", begin, begin + minutes, 1, what, number))
        return begin + minutes

    def _plate(self, number: int, size: Size, made: Made) -> None:
        poured = self._pour(number, made)
        out = self._bath(number, made, poured)
        exposed = self._expose(number, made, out)
        developed = self._develop(number, made, out, exposed)
        fix, fixed = self._fix(number, made, developed)
        self._before = (poured, exposed, fix)
        self.fixes.append(fixed)
        self._wash(number, size, made, fixed)

    def _pour(self, number: int, made: Made) -> Minute:
        if made.poured is not None:
            self._run("pour", number, made.poured, self.times.pour, done=made.out is not None)
            return self._known(made.poured)
        pour = self._minute(self.at.now, self._planned(number).pour)
        self._hands("pour", number, pour, self.times.pour)
        if self._before is not None:
            poured, _, fix = self._before
            self.board.lag(poured, pour, self.times.pour)
            self.board.lag(fix + self.allow.extra(), pour, None, self.times.next_pour_within)
        return pour

    def _run(self, what: str, number: int, begin: int, minutes: int, *, done: bool) -> None:
        """A step of the hands that began when something was pressed and may still go on."""
        if not done and begin + minutes > self.at.now:
            self.running.append((self._known(begin), minutes, what, number))

    def _bath(self, number: int, made: Made, poured: Minute) -> Minute:
        if made.out is not None:
            return self._known(made.out)
        times, out = self.times, self._minute(self.at.now, self._planned(number).tank_out)
        self.board.lag(poured, out, times.pour + times.sensitise.least)
        self.board.lag(poured + self.allow.extra(), out, None, times.pour + times.sensitise.most)
        self.held.append(("tank", poured + times.pour, out, 1, "sensitise", number))
        return out

    def _expose(self, number: int, made: Made, out: Minute) -> Minute:
        """Returns when it has been exposed."""
        if made.exposed is not None:
            return self._known(made.exposed)
        if made.out is not None:
            self._run("load", number, made.out, self.times.load, done=False)
        else:
            self._hands("load", number, out, self.times.load)
        expose = self._minute(self.at.earliest(self.times.expose), self._planned(number).expose)
        self.board.lag(out, expose, self.times.load)
        if self._before is not None:
            self.board.lag(self._before[1], expose, 0)
        return self._hands("expose", number, expose, self.times.expose)

    def _develop(self, number: int, made: Made, out: Minute, exposed: Minute) -> Minute:
        """Returns when it has been developed, in its wet window if that can be."""
        if made.developed is not None:
            return self._known(made.developed)
        develop = self._minute(self.at.earliest(self.times.develop), self._planned(number).develop)
        self.board.lag(exposed, develop, 0)
        self.dry[number] = self.allow.window_lost()
        reach = self.at.last - self.opens
        latest = self.times.wet_window - self.times.develop
        self.board.lag(out + reach * self.dry[number], develop, None, latest)
        return self._hands("develop", number, develop, self.times.develop)

    def _fix(self, number: int, made: Made, developed: Minute) -> tuple[Minute, Minute]:
        """Returns when fixing begins and when it is done."""
        if made.fixed is not None:
            return self._known(made.fixed) - self.times.fix, self._known(made.fixed)
        fix = self._minute(self.at.earliest(self.times.fix), self._planned(number).fix)
        self.board.lag(developed, fix, 0)
        self.board.lag(developed + self.allow.extra(), fix, None, self.times.fix_within)
        return fix, self._hands("fix", number, fix, self.times.fix)

    def _wash(self, number: int, size: Size, made: Made, fixed: Minute) -> None:
        if made.lifted is not None:
            return
        wash, begins = self.times.wash, fixed
        if made.fixed is None:
            begins = self._minute(self.at.now, self._planned(number).wash_in)
            self.board.lag(fixed, begins, 0)
            self.board.lag(fixed + self.allow.extra(), begins, None, 0)
        lift = self._minute(self._lift_from(number, made), self._planned(number).lift)
        self.board.lag(begins, lift, wash.least)
        self.board.lag(begins + self.allow.extra(), lift, None, wash.most)
        self.held.append(("wash", begins, lift, size.wash_places, "wash", number))
        self._hands("lift", number, lift, self.times.lift)

    def _lift_from(self, number: int, made: Made) -> int:
        """Left alone, a plate is lifted no sooner than it was planned to be: the others are planned around that."""
        earliest = self.at.earliest(self.times.lift)
        planned = self._planned(number).lift
        if self.allow.given is not None or made.fixed is None:
            return earliest
        return max(earliest, planned if planned <= made.fixed + self.times.wash.most else earliest)

    def _farewell(self) -> Minute:
        """Returns when the sitter has gone; one whose plates were all spoilt waits for the retakes."""
        times, last = self.times, self._known(self.at.last)
        done = [made.fixed for made in self.work.made if made.fixed is not None and not made.spoilt]
        if not self.fixes:
            return self._known(self.at.now)
        if len(done) == len(self.fixes):
            gone = max(done) + times.farewell_within + times.farewell
            planned = self.work.booked.plan.farewell
            if max(done) <= planned and planned + times.farewell <= self.at.now:
                gone = planned + times.farewell
            if gone <= self.at.now:
                return self._known(gone)
        farewell = self._minute(self.at.earliest(times.farewell), self.work.booked.plan.farewell)
        end = self.board.last_of(self.fixes, 0, last)
        self.board.lag(end, farewell, 0)
        self.board.lag(end + self.allow.extra(), farewell, None, times.farewell_within)
        gone = self._hands("farewell", None, farewell, times.farewell)
        self.held.append(("sitter", self._known(self.at.now), gone, 1, "present", None))
        return gone

    def hold(self) -> None:
        """Everything that is held for it on the board, but what the hands are in the middle of."""
        for resource, begin, end, amount, what, _ in self.held:
            name = "sitters" if resource == "sitter" else resource
            if resource == "operator":
                self.board.hold(name, begin, getattr(self.times, what), amount)
            else:
                self.board.hold_until(name, begin, end, 0, self.at.last - self.opens, amount)

    def left(self) -> tuple[Occupation, ...]:
        """What the board has found is still to be held for it, on the axis of the day."""
        found = (
            Occupation(resource, self._read(begin), self._read(end), amount, what, number)
            for resource, begin, end, amount, what, number in self.held
        )
        running = (
            Occupation("operator", self._read(begin), self._read(begin + minutes), 1, what, number)
            for begin, minutes, what, number in self.running
        )
        return (*running, *found)

    def _read(self, minute: Minute) -> int:
        return self.opens + self.board.value(minute)
