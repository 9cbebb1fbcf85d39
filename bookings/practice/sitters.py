"""How an invented sitter books, for the practice studio and the rehearsal alike: through the real services."""

from collections.abc import Mapping
from datetime import datetime
from uuid import UUID

from bookings.checkout.services import booking
from bookings.diary.models import SittingDay
from bookings.orders.models import ConsentPurpose, Order
from bookings.orders.services.placing import Details
from bookings.orders.wishes import Wish


def place(
    *,
    key: UUID,
    name: str,
    day: SittingDay,
    starts_at: datetime,
    wish: Wish,
    consents: Mapping[ConsentPurpose, bool],
    held_at: datetime,
    placed_at: datetime,
) -> Order:
    """Hold a time and put an invented name and a reserved address (RFC 2606) to it."""
    held = booking.hold_sitting(
        submission_key=key, day_id=day.pk, starts_at=starts_at, wish=wish, now=held_at
    )
    address = name.lower().replace(" ", ".") + "@example.org"
    details = Details(name=name, email=address, phone="", consents=consents)
    return booking.place_order(order_id=held.pk, details=details, now=placed_at)
