"""What is left in the bottles of a solution.

A bottle holds what was last measured in it, with what was put to it since, less what was taken out; or less what the
plates made since must have taken, where that is more, because hardly anybody writes down every pour.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from fractions import Fraction

from plates.chemistry.sentences import Sentence
from plates.chemistry.stock.consumption import Fixer
from plates.chemistry.stock.pools import OnHand
from plates.store.models import Batch, BatchEvent
from plates.store.selectors.poured_area import cm2_made

# A studio that has written down no batch for so long does not use the store room any more.
FORGOTTEN = timedelta(days=400)


@dataclass(frozen=True, slots=True)
class Measured:
    """A bottle as it was last measured, or made: microlitres, when, and what was added and taken since."""

    batch: Batch
    at: datetime
    amount_ul: int
    added_ul: int = 0
    taken_ul: int = 0


def batches(*, kinds: Iterable[str], now: datetime) -> dict[str, list[Batch]]:
    """The batches of each kind with their events, ended ones too; no entry for a kind without any."""
    found: dict[str, list[Batch]] = defaultdict(list)
    recent = Batch.objects.filter(kind__in=list(kinds), mixed_at__gte=now - FORGOTTEN)
    for batch in recent.prefetch_related("events", "clearing_times"):
        found[batch.kind].append(batch)
    return dict(found)


def in_time(batch: Batch) -> list[BatchEvent]:
    """What happened to a batch, in order."""
    return sorted(batch.events.all(), key=lambda event: (event.at, event.pk))


def measured(batch: Batch) -> Measured:
    """A bottle by its events."""
    found = Measured(batch, batch.mixed_at, batch.made_ul)
    for event in in_time(batch):
        if event.kind == BatchEvent.Kind.COUNTED:
            found = Measured(batch, event.at, event.amount_ul)
        elif event.kind == BatchEvent.Kind.ADDED:
            found = Measured(
                batch, found.at, found.amount_ul, found.added_ul + event.amount_ul, found.taken_ul
            )
        else:
            found = Measured(
                batch, found.at, found.amount_ul, found.added_ul, found.taken_ul + event.amount_ul
            )
    return found


def on_hand(*, kind: str, found: Sequence[Batch], ul_a_cm2: Fraction) -> tuple[OnHand, ...]:
    """The bottles that have not ended, in microlitres, in the order of `in_use`."""
    bottles = in_use(found)
    used = _poured(kind, bottles, ul_a_cm2)
    return tuple(
        OnHand(
            0 if spent_by_clearing(each.batch) else _left(each, used[each.batch.pk]),
            each.batch.ripe_from,
            each.batch.best_before,
        )
        for each in bottles
    )


def in_use(found: Sequence[Batch]) -> list[Measured]:
    """The bottles that have not ended, in the order in which they were last measured."""
    live = [measured(batch) for batch in found if batch.ended_at is None]
    return sorted(live, key=lambda each: (each.at, each.batch.pk))


def spent_by_clearing(batch: Batch) -> Sentence | None:
    """Why a fixer is to be made anew by the time that a plate takes to clear, if it is; needs its times at hand."""
    times = sorted(batch.clearing_times.all(), key=lambda each: (each.at, each.pk))
    if not times:
        return None
    first, last = (Fraction(times[place].seconds) for place in (0, -1))
    return Fixer(Fraction(batch.made_ul, 1000), clears_fresh=first, clears_now=last).spent


def _left(bottle: Measured, poured_ul: Fraction) -> int:
    return max(0, int(bottle.amount_ul + bottle.added_ul - max(Fraction(bottle.taken_ul), poured_ul)))


def _poured(kind: str, bottles: Sequence[Measured], ul_a_cm2: Fraction) -> dict[int, Fraction]:
    """Microlitres that plates took from each bottle since it was measured.

    Plates do not say from which bottle they were poured. Those of a while are laid to the bottle that keeps least of
    the ripe ones measured by then: what was poured before a bottle was measured is counted in its measure.
    """
    ends = [each.at for each in bottles[1:]]
    whiles = [(each.at, until) for each, until in zip(bottles, [*ends, None], strict=False)]
    used: dict[int, Fraction] = defaultdict(Fraction)
    for place, area in enumerate(cm2_made(kind=kind, whiles=whiles)):
        first = _first_used_up(bottles[: place + 1], bottles[place].at.date())
        used[first.batch.pk] += area * ul_a_cm2
    return used


def _first_used_up(bottles: Sequence[Measured], on: date) -> Measured:
    ripe = [each for each in bottles if each.batch.ripe_from <= on] or bottles
    return min(ripe, key=lambda each: each.batch.best_before or date.max)
