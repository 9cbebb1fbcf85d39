"""Every address. Each room lists its own: `public_urls` for visitors and clients, `studio_urls` for the owner."""

from django.urls import include, path

from bookings.access import urls as access
from bookings.books import urls as books
from bookings.cards import urls as cards
from bookings.changes import urls as changes
from bookings.checkout import urls as checkout
from bookings.clients import urls as clients
from bookings.day import urls as day
from bookings.desk import urls as desk
from bookings.handover import urls as handover
from bookings.invoices import urls as invoices
from bookings.letters import urls as letters
from bookings.payments import urls as payments
from bookings.planner import urls as planner
from bookings.vouchers import urls as vouchers
from bookings.waitlist import urls as waitlist
from bookings.walkups import urls as walkups

studio = (
    [
        *day.studio_urls,
        *planner.studio_urls,
        *walkups.studio_urls,
        *waitlist.studio_urls,
        *cards.studio_urls,
        *payments.studio_urls,
        *handover.studio_urls,
        *desk.studio_urls,
        *invoices.studio_urls,
        *letters.studio_urls,
        *changes.studio_urls,
        *vouchers.studio_urls,
        *books.studio_urls,
    ],
    "studio",
)

urlpatterns = [
    *planner.public_urls,
    *walkups.public_urls,
    *waitlist.public_urls,
    *cards.public_urls,
    *letters.public_urls,
    *changes.public_urls,
    *vouchers.public_urls,
    *checkout.public_urls,
    *clients.public_urls,
    *access.public_urls,
    path("studio/", include(studio)),
]
