"""The page of what one more of anything would sell."""

from datetime import time

import pytest
from django.urls import reverse

from plates.bench.models import PlateSize
from plates.capacity.what_if import StillToSell
from plates.schedule.selectors.what_if import WorkedOut
from tests import builders
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db


@pytest.fixture
def short_day():
    bench = builders.a_bench(wash_places=1)
    return builders.a_day(bench=bench, closes=time(11), racks_empty_by=time(12), start_every=30)


def shown(photographer, day, **asked):
    return photographer.get(reverse("studio:what_if", args=[day.pk]), asked)


def test_each_change_stands_with_its_sittings_and_what_they_bring(photographer, short_day):
    size = builders.a_size()

    page = Page(shown(photographer, short_day, size=size.pk))

    assert "As it stands 1" in page.text
    assert "One more wash place 2 1, €85.00" in page.text
    assert "One more operator all day 1 none" in page.text
    assert "An assistant from 10:30 1 none" in page.text
    assert "Each brings €85.00, today’s price with tax." in page.text
    assert "Work out the rest" not in page.text


def test_what_is_not_proven_is_told_as_such_and_the_rest_can_be_worked_out(
    photographer, short_day, monkeypatch
):
    answer = WorkedOut((StillToSell("none", 5, 5), StillToSell("assistant", 6, 8)), ("wash_places+1",))
    monkeypatch.setattr("bookings.planner.selectors.what_if.still_to_sell", lambda **asked: answer)
    size = builders.a_size()

    page = Page(shown(photographer, short_day, size=size.pk))

    assert "An assistant from 10:30 at least 6 at least 1, €85.00" in page.text
    assert "One more wash place not worked out yet" in page.text
    assert "Work out the rest" in page.text
    assert f"?size={size.pk}" in page.links


@pytest.mark.parametrize("size", ["", "0", "-1", "x", "\0", "9" * 5000, "²"])
def test_a_size_that_is_not_there_counts_in_the_first_one(photographer, short_day, size):
    builders.a_size("sixth")

    assert "sittings of one sixth plate" in Page(shown(photographer, short_day, size=size)).text


def test_without_a_size_there_is_nothing_to_count(photographer, short_day):
    PlateSize.objects.update(offered=False)

    assert "No plate size is offered" in Page(shown(photographer, short_day)).text


def test_a_day_that_is_not_there_is_not_found(photographer):
    assert photographer.get(reverse("studio:what_if", args=[999])).status_code == 404


def test_the_page_names_no_client(photographer, short_day):
    order = builders.a_paid_order(short_day, name="Ines Madrugada")

    text = Page(shown(photographer, short_day)).text

    assert "Madrugada" not in text
    assert order.reference not in text


def test_the_page_of_the_day_leads_there(photographer, short_day):
    size = builders.a_size()
    page = Page(photographer.get(reverse("studio:plan_day", args=[short_day.pk])))

    assert f"{reverse('studio:what_if', args=[short_day.pk])}?size={size.pk}" in page.links
