"""The secret address of a calendar feed: made, replaced and stopped."""

import secrets
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction

from bookings.planner.models import CalendarFeed
from bookings.planner.selectors.feed import digest_of

SECRET_BYTES = 32


@transaction.atomic
def make_address(*, owner: User, with_names: bool, now: datetime) -> str:
    """Give somebody a new secret for the address, and return it; the one before opens nothing from now on."""
    secret = secrets.token_urlsafe(SECRET_BYTES)
    facts = {"digest": digest_of(secret), "with_names": with_names, "made_at": now}
    CalendarFeed.objects.update_or_create(owner=owner, defaults=facts)
    return secret


@transaction.atomic
def stop(*, owner: User) -> None:
    """Let the address of somebody open nothing any more. Safe twice."""
    CalendarFeed.objects.filter(owner=owner).delete()
