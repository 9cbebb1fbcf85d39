"""What a calendar feed holds: the sittings of the last and the coming weeks."""

import hashlib
from datetime import datetime, timedelta

from django.db.models import Q

from bookings.orders.models import Sitting
from bookings.planner.models import CalendarFeed

BEFORE, AHEAD = timedelta(weeks=4), timedelta(weeks=26)


def digest_of(secret: str) -> str:
    """What is kept of a secret: it has 256 bits of chance, so that a plain digest cannot be turned round."""
    return hashlib.sha256(secret.encode()).hexdigest()


def feed_of(secret: str) -> CalendarFeed | None:
    """The feed that a secret opens, while its owner may sign in to the studio; None for any other text."""
    allowed = CalendarFeed.objects.filter(owner__is_active=True, owner__is_staff=True)
    return allowed.filter(digest=digest_of(secret)).first()


def sittings(*, now: datetime) -> list[Sitting]:
    """Every sitting that has a client and a place at `now`, some weeks back and half a year ahead; three queries."""
    firm = Q(bench_job__confirmed_at__isnull=False) | Q(bench_job__begun_at__isnull=False)
    held = Q(bench_job__held_until__gt=now)
    found = Sitting.objects.of_open_orders().filter(
        firm | held,
        bench_job__released_at=None,
        bench_job__starts_at__range=(now - BEFORE, now + AHEAD),
        order__needs_new_time=False,
    )
    found = found.select_related("order__client", "day__venue", "bench_job__day__bench")
    return list(found.prefetch_related("bench_job__slots__size").order_by("bench_job__starts_at", "pk"))
