"""A day of one bench drawn as lanes over time. Pure layout: minutes become lengths, nothing is looked up.

Sitters, hands, tank places and wash places each get lanes; work that overlaps never shares one. A plate that
takes two wash places is drawn in two lanes, side by side where there is room.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from plates import capacity
from plates.capacity import Occupation
from plates.schedule.drawing import Bar, Drawing, Lane, LaneJob, PlateTimes, Tick

__all__ = ["Bar", "Drawing", "Lane", "LaneJob", "PlateTimes", "Tick", "lay_out"]

PER_MINUTE = 2
LANE_HEIGHT = 22
BAR_HEIGHT = 16
GROUP_GAP = 12
CLOCK_ROOM = 30
MOST_EMPTY_LANES = 12
LETTER = 7  # a letter of a label is about this wide

GROUPS = {"sitter": "Sitter", "operator": "Hands", "tank": "Tank", "wash": "Wash"}

# The steps of the engine as they are spoken of at the bench.
STEP_WORDS = {
    "present": "in the room",
    "settle": "settle",
    "pour": "pour",
    "sensitise": "in the silver bath",
    "load": "load the holder",
    "expose": "expose",
    "develop": "develop",
    "fix": "fix",
    "wash": "in the wash",
    "lift": "lift from the wash",
    "farewell": "farewell",
}
SENTENCES = {
    "bar": "{job}: {step} {begins} to {ends}",
    "bar of a plate": "{job}, plate {number}: {step} {begins} to {ends}",
    "day": "From {opens} to {closes}, racks empty by {racks}: {sittings}, {firm} of them promised, with {plates}.",
    "a sitting": "{number} sitting",
    "sittings": "{number} sittings",
    "a plate": "{number} plate",
    "plates": "{number} plates",
}

Clock = Callable[[int], str]
Say = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class _Words:
    """How a minute is written, and what puts the words above into another language."""

    clock: Clock
    say: Say


@dataclass(frozen=True, slots=True)
class _Piece:
    taken: Occupation
    job: LaneJob


def lay_out(
    bench: capacity.Bench,
    day: capacity.Day,
    jobs: Sequence[LaneJob],
    *,
    now: int | None,
    clock: Clock,
    say: Say = str,
) -> Drawing:
    """Draw the day. Minutes are those of `day`; `clock` writes one of them as HH:MM.

    `say` puts GROUPS, STEP_WORDS and SENTENCES into another language, their {words} left as they are.
    """
    words = _Words(clock, say)
    pieces = [_Piece(taken, job) for job in jobs for taken in capacity.occupations(bench, job.booked)]
    begin = min([day.opens, *(piece.taken.begin for piece in pieces)])
    end = max([day.closes, day.racks_empty_by, *(piece.taken.end for piece in pieces)])
    lanes, height = _lanes(bench, pieces, begin, words)
    return Drawing(
        width=(end - begin) * PER_MINUTE,
        height=height,
        lanes=lanes,
        ticks=_ticks(begin, end, clock),
        closes_x=(day.closes - begin) * PER_MINUTE,
        now_x=(now - begin) * PER_MINUTE if now is not None and begin <= now <= end else None,
        now_label="" if now is None else clock(now),
        summary=_summary(day, jobs, words),
        plates=tuple(times for job in jobs for times in _times(job, clock)),
    )


def wash_places(bench: capacity.Bench, jobs: Sequence[capacity.Booked]) -> list[list[list[int]]]:
    """For each job and each of its plates the wash lanes that it is drawn in, counted from 1; one a place it takes."""
    pieces = [
        _Piece(taken, LaneJob(str(place), booked, firm=True))
        for place, booked in enumerate(jobs)
        for taken in capacity.occupations(bench, booked)
        if taken.resource == "wash"
    ]
    found: list[list[list[int]]] = [[[] for _ in booked.plan.plates] for booked in jobs]
    for number, row in enumerate(_rows(pieces, 0), start=1):
        for piece in row:
            found[int(piece.job.label)][piece.taken.plate or 0].append(number)
    return found


def _lanes(
    bench: capacity.Bench, pieces: Sequence[_Piece], begin: int, words: _Words
) -> tuple[tuple[Lane, ...], int]:
    """All lanes from the top down, and how far down they reach."""
    lanes: list[Lane] = []
    top = CLOCK_ROOM
    for resource, group in GROUPS.items():
        places = _places(bench, resource)
        rows = _rows([piece for piece in pieces if piece.taken.resource == resource], places)
        for number, row in enumerate(rows):
            name = words.say(group)
            called = name if len(rows) == 1 else f"{name} {number + 1}"
            bars = tuple(_bar(piece, top, begin, words) for piece in row)
            lanes.append(Lane(resource, called, top, top + LANE_HEIGHT // 2, number >= places, bars))
            top += LANE_HEIGHT
        top += GROUP_GAP
    return tuple(lanes), top


def _places(bench: capacity.Bench, resource: str) -> int:
    return {
        "sitter": bench.sitters_at_once,
        "operator": bench.operators,
        "tank": bench.tank_places,
        "wash": bench.wash_places,
    }[resource]


def _rows(pieces: Iterable[_Piece], places: int) -> list[list[_Piece]]:
    """Part the pieces into rows without overlap, earliest first: no more rows than are in use at once."""
    rows: list[list[_Piece]] = []
    for piece in sorted(pieces, key=lambda each: (each.taken.begin, each.taken.end)):
        free = [number for number, row in enumerate(rows) if row[-1].taken.end <= piece.taken.begin]
        while len(free) < piece.taken.amount:
            free.append(len(rows))
            rows.append([])
        for number in _side_by_side(free, piece.taken.amount):
            rows[number].append(piece)
    return rows + [[] for _ in range(len(rows), min(places, MOST_EMPTY_LANES))]


def _side_by_side(free: list[int], amount: int) -> list[int]:
    for first in range(len(free) - amount + 1):
        run = free[first : first + amount]
        if run[-1] - run[0] == amount - 1:
            return run
    return free[:amount]


def _bar(piece: _Piece, y: int, begin: int, words: _Words) -> Bar:
    taken, job = piece.taken, piece.job
    sentence = SENTENCES["bar" if taken.plate is None else "bar of a plate"]
    width = (taken.end - taken.begin) * PER_MINUTE
    return Bar(
        x=(taken.begin - begin) * PER_MINUTE,
        y=y + (LANE_HEIGHT - BAR_HEIGHT) // 2,
        width=width,
        height=BAR_HEIGHT,
        step=taken.what,
        firm=job.firm,
        label=_as_fits(job.label, width - 2 * LETTER),
        title=words.say(sentence).format(
            job=job.label,
            number=(taken.plate or 0) + 1,
            step=words.say(STEP_WORDS[taken.what]),
            begins=words.clock(taken.begin),
            ends=words.clock(taken.end),
        ),
    )


def _as_fits(label: str, width: int) -> str:
    """As many whole words of the label as fit into `width`; the title of the bar says it all."""
    words = label.split()
    while words and len(" ".join(words)) * LETTER > width:
        words.pop()
    return " ".join(words)


def _ticks(begin: int, end: int, clock: Clock) -> tuple[Tick, ...]:
    """The minutes at which the clock shows a whole hour, also where it is put forward or back on the way."""
    shown = ((minute, clock(minute)) for minute in range(begin, end + 1))
    return tuple(
        Tick((minute - begin) * PER_MINUTE, label) for minute, label in shown if label.endswith(":00")
    )


def _times(job: LaneJob, clock: Clock) -> list[PlateTimes]:
    plates = zip(job.booked.plan.plates, job.booked.sitting.plates, strict=True)
    return [
        PlateTimes(
            label=job.label,
            number=number,
            size=size.name,
            firm=job.firm,
            pour=clock(plan.pour),
            bath=clock(plan.tank_in),
            expose=clock(plan.expose),
            develop=clock(plan.develop),
            fix=clock(plan.fix),
            wash=clock(plan.wash_in),
            lift=clock(plan.lift),
        )
        for number, (plan, size) in enumerate(plates, start=1)
    ]


def _summary(day: capacity.Day, jobs: Sequence[LaneJob], words: _Words) -> str:
    plates = sum(len(job.booked.sitting.plates) for job in jobs)
    return words.say(SENTENCES["day"]).format(
        opens=words.clock(day.opens),
        closes=words.clock(day.closes),
        racks=words.clock(day.racks_empty_by),
        sittings=words.say(SENTENCES["a sitting" if len(jobs) == 1 else "sittings"]).format(number=len(jobs)),
        firm=sum(job.firm for job in jobs),
        plates=words.say(SENTENCES["a plate" if plates == 1 else "plates"]).format(number=plates),
    )
