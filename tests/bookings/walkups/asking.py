"""The pages of the line as they are asked for."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

from django.urls import reverse

from bookings.walkups import links as line_links
from tests import builders
from tests.reading.pages import Page

TEN = datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


def page(client, name, *arguments, status=200):
    response = client.get(reverse(name, args=arguments))
    assert response.status_code == status
    return Page(response)


def join_address(day):
    return reverse("line_join", args=[line_links.line_token(day)])


def filled(name="Ines", **changes):
    return {"name": name, "size": builders.a_size().pk, "calling": "on", "key": str(uuid4())} | changes


def own_page(client, place, **how):
    return page(client, "line_place", line_links.place_token(place), **how).text
