"""A wish for one quarter plate, as the times page sends it."""

from uuid import uuid4

from django.urls import reverse

from bookings.orders import links
from plates.bench.models import PlateSize

TEN = "2026-11-28T10:00:00+00:00"


def wished(**changes):
    """What the times page sends for one quarter plate; None takes a field away."""
    sent = {f"size_{PlateSize.objects.get(name='quarter').pk}": "1", "submission_key": str(uuid4())} | changes
    return {name: value for name, value in sent.items() if value is not None}


def hold(client, **changes):
    return client.post(reverse("hold"), wished(**changes))


def held_by(response):
    """The order that a visitor was led to."""
    assert response.status_code == 302
    return links.resolve_checkout(response.url.split("/")[2])
