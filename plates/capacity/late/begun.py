"""How work that has begun comes off best, whatever else the day holds: it goes before all that has not begun.

As few plates as possible lose their wet window; then all other longest times are exceeded by the fewest minutes.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from plates.capacity.exact.model import Board, Minute
from plates.capacity.late.progress import Expected, Moment, Work
from plates.capacity.late.remaining import Allowance, Excess, Tail
from plates.capacity.problem.bench import Bench, Day

SECONDS = 1.0
Answer = TypeVar("Answer")


class Undecided(Exception):
    """No plan was found in the time given."""


@dataclass(frozen=True)
class Begun:
    """What begun work must exceed, what becomes of each such work by its place, and which windows are lost."""

    excess: Excess
    sittings: dict[int, Expected]
    lost: tuple[tuple[int, int], ...]


def limits(board: Board, bench: Bench, tails: Sequence[Tail]) -> None:
    """The limits of the bench for all that is on the board. More than it has may really be held now: so be it."""
    sitters = sum(any(what == "present" for *_, what, _ in tail.held) for tail in tails)
    real = really_held([tail.work for tail in tails])
    board.limit("operator", bench.operators)
    board.limit("tank", max(bench.tank_places, real["tank"]))
    board.limit("wash", max(bench.wash_places, real["wash"]))
    board.limit("sitters", max(bench.sitters_at_once, sitters))


def really_held(works: Sequence[Work]) -> dict[str, int]:
    """Tank and wash places that hold a plate now, by what was pressed."""
    held = {"tank": 0, "wash": 0}
    for work in works:
        for size, made in zip(work.booked.sitting.plates, work.made, strict=True):
            in_bath = made.poured is not None and made.out is None
            held["tank"] += in_bath and not made.spoilt
            held["wash"] += size.wash_places if made.fixed is not None and made.left else 0
    return held


def tails_of(allow: Allowance, bench: Bench, day: Day, works: Sequence[Work], at: Moment) -> dict[int, Tail]:
    """The begun works by their places, on the board with what they hold."""
    board = allow.board
    tails = {
        place: Tail(board, bench, day, work, at, allow) for place, work in enumerate(works) if work.begun
    }
    in_hand = sorted((run for tail in tails.values() for run in tail.running), reverse=True)
    for tail in tails.values():
        tail.running = [run for run in tail.running if run in in_hand[: bench.operators]]
        for begin, minutes, _, _ in tail.running:
            board.hold("operator", begin, minutes)
        tail.hold()
    return tails


def begun_work(bench: Bench, day: Day, works: Sequence[Work], at: Moment) -> Begun:
    """Plan the begun work by itself: as it stands in its plan where that still holds.

    Undecided where not even one plan is found.
    """
    begun = _begun_work(bench, day, works, at, as_planned=True)
    begun = begun or _begun_work(bench, day, works, at, as_planned=False)
    if begun is None:
        raise Undecided("The plates under way could not be planned in the time given.")
    return begun


def _begun_work(
    bench: Bench, day: Day, works: Sequence[Work], at: Moment, *, as_planned: bool
) -> Begun | None:
    board = Board()
    allow = Allowance(board, at.last - day.opens, as_planned=as_planned)
    tails = tails_of(allow, bench, day, works, at)
    limits(board, bench, list(tails.values()))

    def read() -> Begun:
        excess = Excess(tuple(map(board.value, allow.extras)), tuple(map(board.value, allow.dry)))
        dried = (
            (place, number) for place in tails for number, dry in tails[place].dry.items() if board.value(dry)
        )
        sittings = {place: expectation(bench, day, tail) for place, tail in tails.items()}
        return Begun(excess, sittings, tuple(sorted(dried)))

    return in_turn(board, [allow.dry, allow.extras], read, SECONDS)[0]


def in_turn(
    board: Board, goals: Sequence[Sequence[Minute]], read: Callable[[], Answer], seconds: float
) -> tuple[Answer | None, bool]:
    """Press one sum after the other down, and read what was found last; whether every one is proven to be least."""
    answer, proven = None, True
    for amounts in goals:
        if board.minimise(amounts, seconds) != "found":
            return answer, False
        answer, proven = read(), proven and board.proven
    return answer, proven


def expectation(bench: Bench, day: Day, tail: Tail) -> Expected:
    """What becomes of begun work, as the board has found it: its start is kept, whenever it was."""
    left = tail.left()
    ends = day.opens + tail.board.value(tail.gone)
    racked = max((held.end for held in left if held.what == "lift"), default=day.opens)
    return Expected(
        begins=max(tail.work.first_pour - bench.timings.settle, day.opens),
        ends=ends,
        late=0,
        over=max(0, ends - day.closes, racked - day.racks_empty_by),
        plan=None,
        left=left,
    )
