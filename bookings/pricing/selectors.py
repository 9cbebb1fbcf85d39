"""What is for sale on a date, and for how much."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy

from bookings.diary.models import Venue
from bookings.errors import NotForSale
from bookings.pricing.models import SizePrice, Surcharge, SurchargeKind, Terms
from plates.bench.models import PlateSize

NO_TERMS = gettext_lazy("There are no terms that hold on that date, so nothing can be booked yet.")


def terms_on(*, on: date, venue: Venue | None) -> Terms | None:
    """The terms that hold on a date at a venue, if there are any yet: its own, else those for everywhere.

    Without a venue they are those for everywhere.
    """
    return terms_among(terms_until(on=on), on=on, venue_id=venue.pk if venue else None)


def current_terms(*, on: date, venue: Venue | None) -> Terms:
    """The terms that hold on a date at a venue, as `terms_on` finds them; NotForSale when there are none yet."""
    terms = terms_on(on=on, venue=venue)
    if terms is None:
        raise NotForSale(NO_TERMS)
    return terms


def terms_until(*, on: date) -> list[Terms]:
    """All terms that held on a date or before, for every venue, newest first."""
    return list(
        Terms.objects.filter(holds_from__lte=on).select_related("venue").order_by("-holds_from", "-id")
    )


def terms_among(newest_first: Sequence[Terms], *, on: date, venue_id: int | None) -> Terms | None:
    """Those of the given terms that hold on a date at a venue. A venue's own come before newer ones for everywhere."""
    holding = [terms for terms in newest_first if terms.holds_from <= on]
    own = (terms for terms in holding if venue_id is not None and terms.venue_id == venue_id)
    everywhere = (terms for terms in holding if terms.venue_id is None)
    return next(own, None) or next(everywhere, None)


def terms_shown(*, venues: Collection[Venue], on: date) -> list[Terms]:
    """What a visitor can be asked to agree to: the terms for everywhere, then those of venues that have their own."""
    found = terms_until(on=on)
    held = [terms_among(found, on=on, venue_id=place) for place in [None, *(venue.pk for venue in venues)]]
    return list(dict.fromkeys(terms for terms in held if terms is not None))


def prices(*, on: date, sizes: Collection[PlateSize] | None = None) -> dict[int, SizePrice]:
    """The price that holds on a date for each size (by its id); sizes without one are left out."""
    found = SizePrice.objects.filter(holds_from__lte=on).select_related("size", "tax_class")
    if sizes is not None:
        found = found.filter(size__in=sizes)
    # Oldest first, so that the newest price of a size is the one that stays.
    return {price.size_id: price for price in found.order_by("holds_from")}


def price_list(*, on: date) -> list[SizePrice]:
    """The offered sizes that have a price, smallest plate first."""
    found = [price for price in prices(on=on).values() if price.size.offered]
    return sorted(found, key=lambda price: price.size.area_cm2)


def further_sitter_amounts(*, on: date) -> list[int]:
    """What each further person in the picture costs on a date, by venue: the least first.

    Empty where nobody is charged for company.
    """
    found = Surcharge.objects.filter(kind=SurchargeKind.SITTER, holds_from__lte=on).order_by("holds_from")
    held = {charge.venue_id: charge.amount for charge in found}
    return sorted(set(held.values())) if any(held.values()) else []


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
