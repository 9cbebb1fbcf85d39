"""Two visitors at once, a hold that lapsed, and the button that goes back."""

import re
from datetime import time, timedelta

import pytest
from django.utils import timezone
from playwright.sync_api import expect

from bookings.orders.models import Order
from plates.bench.models import BenchJob
from tests import builders
from tests.browser import walks

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SUNDAY = builders.SATURDAY + timedelta(days=1)


@pytest.fixture
def bench():
    builders.a_size("quarter")
    return builders.a_bench(sitters_at_once=1)


@pytest.fixture
def last_time(transactional_db, bench):
    """A Saturday with one start for one plate, and a whole Sunday."""
    saturday = builders.a_day(bench=bench, closes=time(10, 30), racks_empty_by=time(12), start_every=30)
    builders.a_day(bench=bench, on=SUNDAY)
    return saturday


@pytest.fixture
def saturday(transactional_db, bench):
    return builders.a_day(bench=bench)


def starts_of(page, day):
    return page.locator(f"section[aria-labelledby=day-{day.pk}]").get_by_role("button")


def test_of_two_visitors_who_want_the_last_time_one_gets_it_and_one_is_told(open_window, last_time):
    pages = [open_window().page for _ in range(2)]
    for page in pages:
        walks.choose_plates(page, quarter=1)
        expect(starts_of(page, last_time)).to_have_count(1)
    one, other = pages

    with one.expect_navigation() as first, other.expect_navigation() as second:
        starts_of(one, last_time).click(no_wait_after=True)
        starts_of(other, last_time).click(no_wait_after=True)

    answers = {response.value.status: page for page, response in ((one, first), (other, second))}
    assert sorted(answers) == [200, 409]
    expect(answers[200].get_by_role("heading", level=1)).to_have_text("Who is coming?")
    loser = answers[409]
    expect(loser).to_have_title(re.compile("^Choose again: "))
    expect(loser.get_by_role("heading", name="That time is no longer free")).to_be_focused()
    expect(loser.get_by_role("alert")).to_contain_text("No other time is free on that day.")
    expect(starts_of(loser, last_time)).to_have_count(0)
    expect(loser.get_by_role("button", name=re.compile("^10:00, Sunday"))).to_be_visible()
    assert Order.objects.count() == 1


def test_the_one_who_was_told_can_press_another_time(open_window, last_time):
    page = open_window().page
    walks.choose_plates(page, quarter=1)
    builders.a_paid_order(last_time)
    walks.press_start(page, "10:00, Saturday")

    walks.press_start(page, "10:00, Sunday")

    expect(page.get_by_role("heading", level=1)).to_have_text("Who is coming?")
    expect(page.get_by_text("Sunday 29 November 2026 at 10:00")).to_be_visible()


def test_who_typed_too_long_keeps_what_was_typed_and_takes_one_of_the_nearest_times(open_window, saturday):
    page = open_window().page
    walks.choose_plates(page, quarter=1)
    walks.press_start(page, "12:00")
    # The press has been answered: to reload a page that is on its way out is an error in Chromium.
    expect(page.get_by_text("Saturday 28 November 2026 at 12:00")).to_be_visible()
    BenchJob.objects.update(held_until=timezone.now() - timedelta(minutes=1))
    builders.a_paid_order(saturday, at=time(12), name="Wren Achterberg", now=timezone.now())
    walks.fill_details(page)
    walks.box(page, "I have read the cautions and the terms").check()
    walks.send_details(page)

    expect(page).to_have_title(re.compile("^Choose again: "))
    expect(page.get_by_role("heading", name="The time that was kept for you has gone")).to_be_focused()
    for label, words in walks.DETAILS.items():
        expect(walks.field(page, label)).to_have_value(words)
    expect(walks.box(page, "I have read the cautions and the terms")).to_be_checked()
    nearest = page.locator("ul.starts").get_by_role("button")
    clock = nearest.last.inner_text()
    nearest.last.click()

    expect(page.get_by_role("heading", level=1)).to_have_text("One thing left: the deposit")
    expect(page.get_by_text(f"Saturday 28 November 2026, {clock}")).to_be_visible()
    placed = Order.objects.get(client__name="Ines Madrugada")
    assert f"{placed.sitting.bench_job.starts_at:%H:%M}" == clock != "12:00"


def test_a_hold_that_lapsed_is_simply_kept_where_nobody_took_the_place(open_window, saturday):
    page = open_window().page
    walks.choose_plates(page, quarter=1)
    walks.press_start(page, "12:00")
    # The press has been answered: to reload a page that is on its way out is an error in Chromium.
    expect(page.get_by_text("Saturday 28 November 2026 at 12:00")).to_be_visible()
    BenchJob.objects.update(held_until=timezone.now() - timedelta(minutes=1))
    page.reload()
    expect(page.get_by_text("It may still be free")).to_be_visible()
    walks.fill_details(page)
    walks.box(page, "I have read the cautions and the terms").check()

    walks.send_details(page)

    expect(page.get_by_text("Saturday 28 November 2026, 12:00")).to_be_visible()


def test_who_goes_back_can_press_another_time_and_gives_the_first_one_back(open_window, saturday):
    page = open_window().page
    walks.choose_plates(page, quarter=1)
    walks.press_start(page, "12:00")
    expect(page.get_by_text("Saturday 28 November 2026 at 12:00")).to_be_visible()
    page.go_back()

    walks.press_start(page, "15:00")

    expect(page.get_by_text("Saturday 28 November 2026 at 15:00")).to_be_visible()
    promised = BenchJob.objects.promised(timezone.now())
    assert [f"{job.starts_at:%H:%M}" for job in promised] == ["15:00"]
