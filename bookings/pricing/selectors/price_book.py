"""The prices up to a date, read once: what is charged on any day before is then answered without asking again.

Nothing here writes.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from bookings.pricing.models import SizePrice, Surcharge, SurchargeKind
from plates.bench.models import PlateSize


@dataclass(frozen=True, slots=True)
class PriceBook:
    """Prices of sizes and surcharges, the oldest first."""

    sizes: Sequence[SizePrice]
    surcharges: Sequence[Surcharge]

    def size_prices(self, *, on: date) -> dict[int, SizePrice]:
        """The price that holds on a date for each size, by its id; sizes without one are left out."""
        # The newest price of a size is the one that stays.
        return {price.size_id: price for price in self.sizes if price.holds_from <= on}

    def surcharge(self, *, kind: SurchargeKind, on: date, venue_id: int | None) -> Surcharge | None:
        """The surcharge of a kind that holds on a date at a venue; None when there is none or it is 0.

        A venue's own comes before a newer one for everywhere, also when it is 0.
        """
        held = {
            each.venue_id: each for each in self.surcharges if each.kind == kind and each.holds_from <= on
        }
        found = held.get(venue_id) or held.get(None)
        return found if found is not None and found.amount else None


def price_book(*, until: date, sizes: Collection[PlateSize] | None = None) -> PriceBook:
    """All prices that hold on some day until a date; of these sizes only, where they are given."""
    prices = SizePrice.objects.filter(holds_from__lte=until).select_related("size", "tax_class")
    if sizes is not None:
        prices = prices.filter(size__in=sizes)
    surcharges = Surcharge.objects.filter(holds_from__lte=until).select_related("tax_class")
    return PriceBook(list(prices.order_by("holds_from")), list(surcharges.order_by("holds_from")))
