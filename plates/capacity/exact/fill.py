"""Further one-plate sittings on a day that is already promised: so many of them at once, or one at a given start."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from ortools.sat.python import cp_model

from plates.capacity.exact.day import Placed, Wanted, laid_out
from plates.capacity.exact.model import Board, Minute
from plates.capacity.exact.order import keep_order
from plates.capacity.problem.bench import Bench, Day, Sitting, Size
from plates.capacity.problem.case import Case
from plates.capacity.problem.timeline import Booked, occupations
from plates.capacity.verify.day import problems

# Sittings that start further off than this stay as they are while one is added: that finds nearly as many in a third
# of the time (measured on invented days: 27 further sittings instead of 28, 19 instead of 19, 7 instead of 7).
NEAR = 120


@dataclass(frozen=True, slots=True)
class Asked:
    """A day as it is promised, and a size of which further one-plate sittings are asked for at some `starts`.

    absent_until: until that minute one pair of hands of the bench is not there. in_stock: for how many further
    sittings there is chemistry; None for any number.
    """

    bench: Bench
    day: Day
    booked: tuple[Booked, ...]
    size: Size
    starts: tuple[int, ...]
    absent_until: int | None = None
    in_stock: int | None = None

    def bench_at(self, start: int) -> Bench:
        """The bench with the hands that are there from `start` on."""
        if self.absent_until is None or start >= self.absent_until:
            return self.bench
        return replace(self.bench, operators=self.bench.operators - 1)


@dataclass(frozen=True, slots=True)
class Fill:
    """The whole day with the further sittings last, verified; or () and whether that is proven impossible.

    work: what it took, in the solver's own seconds.
    """

    booked: tuple[Booked, ...] = ()
    impossible: bool = False
    work: float = 0.0


def filled(asked: Asked, number: int, seconds: float) -> Fill:
    """The day with so many more sittings (1 or more) at any of the starts, the same one more than once too."""
    if not asked.starts:
        return Fill(impossible=True)
    tolerance, opens = asked.bench.tolerance, asked.day.opens
    wanted = [Wanted((asked.size,), min(asked.starts), max(asked.starts) + tolerance)] * number
    board = _FillBoard()
    free = [place for place, each in enumerate(asked.booked) if not each.begun]
    placed = _laid_out(board, asked, free, wanted)
    for each in placed[len(free) :]:
        board.in_windows(each.settle, [(start - opens, start - opens + tolerance) for start in asked.starts])
    outcome = board.solve(seconds)
    whole = _verified(asked, free, asked.starts, placed) if outcome == "found" else ()
    return Fill(whole, outcome == "impossible", board.work)


def with_one(asked: Asked, start: int, seconds: float) -> Fill:
    """The day with one more sitting at `start`, by insertion or, in so many seconds, with those near it planned anew.

    What is not found is not proven impossible.
    """
    sitting = Sitting(start, (asked.size,))
    case = Case(asked.bench_at(start), asked.day, asked.booked)
    own = case.insert(sitting)
    if own:
        return Fill((*asked.booked, Booked(sitting, own)))
    if not seconds or case.bound(sitting):
        return Fill()
    near = [
        place
        for place, each in enumerate(asked.booked)
        if not each.begun and abs(each.sitting.start - start) <= NEAR
    ]
    board = _FillBoard()
    placed = _laid_out(board, asked, near, [Wanted(sitting.plates, start, start + asked.bench.tolerance)])
    found = board.solve(seconds) == "found"
    return Fill(_verified(asked, near, [start], placed) if found else (), work=board.work)


def _laid_out(board: Board, asked: Asked, free: Sequence[int], further: Sequence[Wanted]) -> list[Placed]:
    """The booked sittings that are free to move, by their places, and the further ones; all others stay as they are."""
    bench, opens = asked.bench, asked.day.opens
    if asked.absent_until is not None:
        board.hold("operator", 0, max(0, asked.absent_until - opens))
    baths: list[tuple[int, int]] = []
    for place, each in enumerate(asked.booked):
        if place not in free:
            baths += [(plate.tank_in - opens, plate.tank_out - opens) for plate in each.plan.plates]
            for held in occupations(bench, each):
                resource = "sitters" if held.resource == "sitter" else held.resource
                board.hold(resource, held.begin - opens, held.end - held.begin, held.amount)
    promised = [
        Wanted(each.sitting.plates, each.sitting.start, each.sitting.start + bench.tolerance, each.plan)
        for each in (asked.booked[place] for place in free)
    ]
    placed = laid_out(board, bench, asked.day, [*promised, *further], baths)
    # Promised and further sittings have windows of different widths, so each kind is put in order by itself.
    keep_order(board, bench, placed[: len(promised)])
    keep_order(board, bench, placed[len(promised) :])
    return placed


def _verified(
    asked: Asked, free: Sequence[int], starts: Sequence[int], placed: Sequence[Placed]
) -> tuple[Booked, ...]:
    """The whole day as the board has it, if the verifier passes it; else nothing."""
    plans = [each.plan() for each in placed]
    moved = dict(zip(free, plans, strict=False))
    before = [replace(each, plan=moved.get(place, each.plan)) for place, each in enumerate(asked.booked)]
    added = [
        Booked(Sitting(max(start for start in starts if start <= plan.settle), (asked.size,)), plan)
        for plan in plans[len(free) :]
    ]
    whole = (*before, *added)
    sound = not problems(asked.bench, asked.day, whole) and not _overworked(asked, whole)
    return whole if sound else ()


def _overworked(asked: Asked, booked: Sequence[Booked]) -> bool:
    """Whether more hands are at work than there are before the last pair comes."""
    if asked.absent_until is None:
        return False
    until = asked.absent_until
    changes: dict[int, int] = {}
    for each in booked:
        for held in occupations(asked.bench, each):
            if held.resource == "operator":
                for minute, amount in ((held.begin, held.amount), (held.end, -held.amount)):
                    changes[min(minute, until)] = changes.get(min(minute, until), 0) + amount
    return (
        max(accumulate(change for _, change in sorted(changes.items())), default=0) >= asked.bench.operators
    )


class _FillBoard(Board):
    """A board with starts on a grid."""

    def in_windows(self, minute: Minute, windows: Sequence[tuple[int, int]]) -> None:
        """The minute lies in one of these windows, both ends included."""
        self._model.add_linear_expression_in_domain(
            minute, cp_model.Domain.from_intervals([list(window) for window in windows])
        )
