"""Sets of minutes as one Python int: bit t stands for minute t of the day, counted from opening.

One shift or one "and" works on every minute of the day at once. Every mask is cut to the length of the day.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from plates.capacity.problem.bench import Bench, Day
from plates.capacity.problem.timeline import Booked, Occupation, occupations


def stretch(begin: int, end: int, length: int) -> int:
    """The minutes from begin up to but not including end, as far as they lie in 0..length-1."""
    begin, end = max(begin, 0), min(end, length)
    return (1 << end) - (1 << begin) if begin < end else 0


def runs(free: int, minutes: int) -> int:
    """The minutes t of `free` for which t, t+1 .. t+minutes-1 are all free (minutes of at least 1)."""
    have = 1
    while have < minutes:
        step = min(have, minutes - have)
        free &= free >> step
        have += step
    return free


def within(later: int, least: int, most: int) -> int:
    """The minutes t for which some minute of `later` lies in t+least .. t+most; none if most < least."""
    if most < least:
        return 0
    found, have, width = later >> least, 1, most - least + 1
    while have < width:
        step = min(have, width - have)
        found |= found >> step
        have += step
    return found


def kept_until(later: int, free: int, least: int, most: int) -> int:
    """The minutes t from which some minute of `later` is least..most minutes off, every minute until it free.

    The stretch looked at doubles with each step, so that an hour of choice takes six steps.
    """
    if most < least:
        return 0
    found, unbroken, have, width = later, free, 1, most - least + 1
    while have < width:
        step = min(have, width - have)
        found |= (unbroken if step == have else runs(free, step)) & (found >> step)
        unbroken &= unbroken >> have
        have += step
    return runs(free, least) & (found >> least) if least else found


@dataclass(frozen=True, slots=True)
class Levels:
    """How much of a resource is in use: masks[k] holds the minutes at which more than k is."""

    masks: tuple[int, ...] = ()

    def plus(self, minutes: int, amount: int) -> "Levels":
        """The same with `amount` more in use during `minutes`."""
        count = len(self.masks)
        raised = []
        for level in range(count + amount):
            mask = self.masks[level] if level < count else 0
            below = minutes if level < amount else self.masks[level - amount] & minutes
            raised.append(mask | below)
        while raised and not raised[-1]:
            raised.pop()
        return Levels(tuple(raised))

    def over(self, limit: int) -> int:
        """The minutes at which more than `limit` (0 or more) is in use."""
        return self.masks[limit] if limit < len(self.masks) else 0


@dataclass(frozen=True, slots=True)
class Room:
    """What a day has in use: `length` minutes from `opens`, and the levels of each resource."""

    opens: int
    length: int
    operator: Levels = Levels()
    tank: Levels = Levels()
    wash: Levels = Levels()
    sitter: Levels = Levels()

    def plus(self, taken: Iterable[Occupation]) -> "Room":
        """The same day with these occupations added."""
        levels = {name: getattr(self, name) for name in ("operator", "tank", "wash", "sitter")}
        for each in taken:
            mask = stretch(each.begin - self.opens, each.end - self.opens, self.length)
            levels[each.resource] = levels[each.resource].plus(mask, each.amount)
        return replace(self, **levels)

    def free(self, levels: Levels, limit: int) -> int:
        """The minutes of the day at which at most `limit` is in use; none for a limit below 0."""
        if limit < 0:
            return 0
        return ((1 << self.length) - 1) & ~levels.over(limit)


def room_of(bench: Bench, day: Day, booked: Sequence[Booked]) -> Room:
    """The day's room with these sittings in it, from opening to the last of closing and empty racks."""
    empty = Room(day.opens, max(day.closes, day.racks_empty_by) - day.opens)
    return empty.plus(taken for each in booked for taken in occupations(bench, each))
