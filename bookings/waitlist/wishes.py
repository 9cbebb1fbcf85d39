"""A wish written down for later, by the numbers of its rows."""

from typing import Any

from django.utils.translation import gettext as _

from bookings.errors import NotForSale
from bookings.orders.wishes import Wish
from bookings.pricing.models import Extra
from plates.bench.models import PlateSize


def dump(wish: Wish) -> dict[str, Any]:
    """The wish as plain values that JSON can hold."""
    return {
        "sizes": [size.pk for size in wish.sizes],
        "extras": [[extra.pk, count] for extra, count in wish.extras.items()],
        "sitters": wish.sitters,
        "code": wish.code,
    }


def load(kept: dict[str, Any]) -> Wish:
    """The wish that was written. NotForSale when a size or an extra of it is kept no longer, or is not sold."""
    sizes = PlateSize.objects.filter(offered=True).in_bulk(kept["sizes"])
    extras = Extra.objects.filter(offered=True).in_bulk([extra for extra, _count in kept["extras"]])
    try:
        return Wish(
            sizes=[sizes[size] for size in kept["sizes"]],
            extras={extras[extra]: count for extra, count in kept["extras"]},
            sitters=kept["sitters"],
            code=kept["code"],
        )
    except KeyError as error:
        raise NotForSale(_("Something that was asked for is no longer for sale.")) from error
