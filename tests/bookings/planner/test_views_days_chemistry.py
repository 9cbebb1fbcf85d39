"""The planner says for how many plates the collodion of a day is enough, and a client why a day is closed."""

import pytest
from django.urls import reverse

from tests import builders
from tests.builders.bottles import a_batch
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


def test_the_page_of_a_day_tells_its_collodion(photographer, day):
    # A whole plate, the largest that is offered, takes 10.694 mL: 165.1 mm × 215.9 mm at 0.03 mL/cm².
    a_batch(43)

    page = Page(photographer.get(reverse("studio:plan_day", args=[day.pk])))

    assert "collodion for 4 whole plates, Saturday needs 0" in page.text


def test_a_client_reads_that_the_collodion_keeps_plates_out(client, day):
    half = builders.a_size("half")
    a_batch(1)

    page = Page(client.get(reverse("times"), {f"size_{half.pk}": 1}))

    assert "What keeps them out: the collodion in stock" in page.text
