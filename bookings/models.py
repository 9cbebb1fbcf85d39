"""Where Django looks for the rows of this app: each feature keeps its own."""

from bookings.access import models as access
from bookings.cards import models as cards
from bookings.diary import models as diary
from bookings.handover import models as handover
from bookings.invoices import models as invoices
from bookings.letters import models as letters
from bookings.orders import models as orders
from bookings.outbox import models as outbox
from bookings.payments import models as payments
from bookings.planner import models as planner
from bookings.pricing import models as pricing
from bookings.studio import models as studio
from bookings.vouchers import models as vouchers
from bookings.waitlist import models as waitlist
from bookings.walkups import models as walkups

__all__ = [
    "access",
    "cards",
    "diary",
    "handover",
    "invoices",
    "letters",
    "orders",
    "outbox",
    "payments",
    "planner",
    "pricing",
    "studio",
    "vouchers",
    "waitlist",
    "walkups",
]
