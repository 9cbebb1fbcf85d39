"""What a plate takes of each solution in this studio, by its own stock-takes."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from fractions import Fraction

from plates.chemistry.stock.consumption import FIXER_CM2_A_LITRE, RATES
from plates.chemistry.stock.rates import Between, OwnRate, own_rate
from plates.store.models import Batch, BatchEvent, Solution
from plates.store.selectors.bottles import in_time
from plates.store.selectors.poured_area import cm2_made

UL_IN_ML = 1000
# Stock-takes of long ago say little of how one pours today.
MOST_STRETCHES = 12

TABLE: dict[str, Fraction] = {
    Solution.COLLODION: RATES["collodion"].usual,
    Solution.DEVELOPER: RATES["developer"].usual,
    Solution.VARNISH: RATES["varnish"].usual,
}


def rate(*, kind: str, found: Sequence[Batch]) -> OwnRate:
    """mL for each cm² of plate, from the batches of that kind with their events.

    A fixer is not used up by the plate but by its area, so stock-takes teach nothing of it.
    """
    if kind == Solution.FIXER:
        return OwnRate(Fraction(1000, FIXER_CM2_A_LITRE), Fraction(0))
    stretches = sorted(
        (each for batch in found for each in _stretches(batch) if _alone(batch, found, each)), reverse=True
    )[:MOST_STRETCHES]
    areas = cm2_made(kind=kind, whiles=[(since, until) for since, until, _ in stretches])
    between = [
        Between(Fraction(used, UL_IN_ML), area) for (_, _, used), area in zip(stretches, areas, strict=True)
    ]
    return own_rate(TABLE[kind], between)


def _stretches(batch: Batch) -> Iterator[tuple[datetime, datetime, int]]:
    """From one measuring to the next, and the microlitres that went meanwhile, taken out or poured."""
    since, amount = batch.mixed_at, batch.made_ul
    for event in in_time(batch):
        if event.kind == BatchEvent.Kind.ADDED:
            amount += event.amount_ul
        elif event.kind == BatchEvent.Kind.COUNTED:
            yield since, event.at, amount - event.amount_ul
            since, amount = event.at, event.amount_ul


def _alone(batch: Batch, found: Sequence[Batch], stretch: tuple[datetime, datetime, int]) -> bool:
    """Whether no other bottle could have been poured from meanwhile."""
    since, until, _ = stretch
    return not any(
        other.pk != batch.pk
        and other.ripe_from <= until.date()
        and (other.ended_at is None or other.ended_at > since)
        and (other.best_before is None or other.best_before > since.date())
        for other in found
    )
