"""What one more of anything at the bench would let a day sell, and bring at today's prices."""

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from bookings.diary.models import SittingDay
from bookings.diary.selectors import in_light
from bookings.pricing.selectors import prices
from bookings.studio.selectors import the_studio
from plates.bench.models import PlateSize
from plates.schedule.selectors.what_if import still_to_sell

if TYPE_CHECKING:
    from plates.capacity.what_if import StillToSell


@dataclass(frozen=True, slots=True)
class Prospect:
    """One change of the bench: sittings still to sell with it, how many more than now, what these would bring.

    proven: no plan holds more sittings. gain: "exactly", "at_least" or, where not even the bench as it stands was
    worked out to the end, "found". income: minor units with tax; None for a size without a price.
    """

    change: str
    sittings: int
    proven: bool
    more: int
    gain: str
    income: int | None


@dataclass(frozen=True, slots=True)
class Prospects:
    """The bench as it stands and each change worked out so far; `open_changes` are still to be worked out."""

    now: Prospect
    changed: list[Prospect]
    open_changes: tuple[str, ...]
    assistant_from: datetime
    price: int | None
    currency: str

    @property
    def most(self) -> int:
        """The longest bar, so that all are drawn to one scale."""
        return max([1, self.now.sittings, *(each.sittings for each in self.changed)])


def prospects(*, day: SittingDay, size: PlateSize, now: datetime) -> Prospects:
    """Further one-plate sittings of a size at the starts still to come, with light where the day needs it."""
    assistant_from = midday(day)
    worked_out = still_to_sell(
        day=day.bench_day,
        size=size,
        starts=[start for start in _starts(day, now) if in_light(day, start, 1)],
        assistant_from=assistant_from,
        now=now,
    )
    held = prices(on=day.local(now).date(), sizes=[size]).get(size.pk)
    price = held.amount if held else None
    as_it_stands, *changed = worked_out.found
    return Prospects(
        now=_prospect(as_it_stands, as_it_stands, price),
        changed=[_prospect(each, as_it_stands, price) for each in changed],
        open_changes=worked_out.open_changes,
        assistant_from=day.local(assistant_from),
        price=price,
        currency=the_studio().currency,
    )


def midday(day: SittingDay) -> datetime:
    """The middle of the hours of a day, on the grid of its starts: when an assistant for the second half comes."""
    hours = day.bench_day.as_capacity()
    return day.bench_day.instant(hours.closes // 2 // hours.start_every * hours.start_every)


def _starts(day: SittingDay, now: datetime) -> list[datetime]:
    hours = day.bench_day.as_capacity()
    starts = [day.bench_day.instant(minute) for minute in range(0, hours.closes, hours.start_every)]
    return [start for start in starts if start > now]


def _prospect(each: "StillToSell", as_it_stands: "StillToSell", price: int | None) -> Prospect:
    more = each.sittings - as_it_stands.sittings
    gain = "found" if not as_it_stands.proven else "exactly" if each.proven else "at_least"
    return Prospect(
        change=each.change,
        sittings=each.sittings,
        proven=each.proven,
        more=more,
        gain=gain,
        income=None if price is None else price * more,
    )
