"""Changing a booking behind a mailed link: costs are shown before, and only what was shown is done."""

from datetime import UTC, datetime, time, timedelta

import pytest
import time_machine
from django.urls import reverse

from bookings.access import links as step_up_links
from bookings.access import services as step_up
from bookings.access.models import Purpose
from bookings.handover.selectors.desk import named_person
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import CancelCause, Order
from bookings.orders.selectors.account import account
from bookings.pricing.models import ExtraKind
from plates.ledger.services import events as ledger
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

DAY_BEFORE = datetime(2026, 11, 27, 12, 0, tzinfo=UTC)
NOON = datetime(2026, 11, 28, 12, 0, tzinfo=UTC)


@pytest.fixture(autouse=True)
def clock():
    with time_machine.travel(NOW, tick=False) as moved:
        yield moved


@pytest.fixture
def day():
    builders.some_terms(late_move_bp=2000)
    return builders.a_day()


@pytest.fixture
def order(day):
    return builders.a_paid_order(day, at=time(10))


@pytest.fixture
def mine(client, order, clock):
    """The browser of the client, with the page open at a time."""

    def opened(now=NOW):
        clock.move_to(now)
        asked = step_up.ask(order_id=order.pk, purpose=Purpose.CHANGE, now=now)
        client.post(reverse("step_up", args=[step_up_links.token(asked)]))
        return client

    return opened


def words(answer):
    return " ".join(answer.content.decode().split())


def moving_to(order, starts_at, price):
    return {"start": f"{order.sitting.day_id} {starts_at.isoformat()}", "price": price}


def test_the_page_shows_the_order_its_money_and_what_is_open(mine, order):
    page = words(mine().get(reverse("mine_change")))

    assert order.reference in page
    assert "Another time costs nothing" in page
    assert "It costs nothing; €42.50 comes back to you." in page


def test_a_free_change_of_time_moves_the_sitting(mine, order):
    answer = mine().post(reverse("mine_move"), moving_to(order, NOON, 0), follow=True)

    assert "Your sitting has its new time." in words(answer)
    assert Order.objects.get(pk=order.pk).sitting.bench_job.starts_at == NOON


def test_a_late_change_says_its_price_and_adds_it(mine, order):
    browser = mine(DAY_BEFORE)

    assert "another time now costs <strong>€8.50</strong>" in words(browser.get(reverse("mine_change")))
    browser.post(reverse("mine_move"), moving_to(order, NOON, 850))

    assert account(Order.objects.get(pk=order.pk)).gross == 8500 + 850


def test_a_change_that_became_dearer_than_shown_is_not_made(mine, order):
    answer = mine(DAY_BEFORE).post(reverse("mine_move"), moving_to(order, NOON, 0))

    assert answer.status_code == 409
    assert "By the terms this now costs €8.50, not €0.00" in words(answer)
    assert order.sitting.bench_job.starts_at == datetime(2026, 11, 28, 10, 0, tzinfo=UTC)


@pytest.mark.parametrize("start", ["", "nonsense", "1 yesterday"], ids=["none", "nonsense", "no time"])
def test_what_is_no_start_is_refused_with_a_sentence(mine, start):
    answer = mine().post(reverse("mine_move"), {"start": start, "price": 0})

    assert answer.status_code == 409
    assert "Choose one of the start times shown." in words(answer)


def test_cancelling_in_time_costs_nothing(mine, order):
    mine().post(reverse("mine_cancel"), {"kept": 0, "sure": "on"})

    cancelled = Order.objects.get(pk=order.pk)
    assert (cancelled.cancel_cause, cancelled.kept) == (CancelCause.CLIENT, 0)
    assert account(cancelled).overpaid == 4250


def test_cancelling_late_keeps_what_was_shown(mine, order):
    browser = mine(DAY_BEFORE)

    assert "would now keep <strong>€42.50</strong>" in words(browser.get(reverse("mine_change")))
    browser.post(reverse("mine_cancel"), {"kept": 4250, "sure": "on"})

    assert Order.objects.get(pk=order.pk).kept == 4250


def test_cancelling_needs_the_box_ticked(mine, order):
    answer = mine().post(reverse("mine_cancel"), {"kept": 0})

    assert answer.status_code == 400
    assert "Tick the box if you want to cancel." in words(answer)
    assert Order.objects.get(pk=order.pk).cancelled_at is None


def test_one_more_plate_is_promised_and_priced(mine, order):
    size = builders.a_size("half")

    mine().post(reverse("mine_add_plate"), {"size": size.pk})

    assert [line.text for line in order.lines.all()] == ["quarter plate", "half plate"]
    assert order.sitting.bench_job.slots.count() == 2
    assert account(order).gross == 8500 + 12500


def test_nothing_is_added_to_an_order_that_was_invoiced(mine, order):
    invoices.issue(order_id=order.pk, now=NOW)
    size = builders.a_size("half")

    answer = mine().post(reverse("mine_add_plate"), {"size": size.pk})

    assert "The invoice of this order was issued, so nothing can be added." in words(answer)
    assert order.lines.count() == 1


def test_the_post_takes_an_address_and_its_price_once(mine, order):
    builders.an_extra("Sent by post", kind=ExtraKind.POST, amount=1200)
    asked = {"address": "7 Net Loft Row\nSaltmarrow", "country": "pt"}
    browser = mine()

    browser.post(reverse("mine_by_post"), asked)
    answer = browser.post(reverse("mine_by_post"), asked)

    assert answer.status_code == 409
    assert account(order).gross == 8500 + 1200
    order.client.refresh_from_db()
    assert (order.client.address.splitlines(), order.client.country) == (
        ["7 Net Loft Row", "Saltmarrow"],
        "PT",
    )


def test_a_sitting_that_was_begun_offers_nothing(mine, order):
    ledger.pour(slot_id=order.sitting.bench_job.slots.get().pk, operator=None, now=NOW)

    page = words(mine(NOW + timedelta(minutes=1)).get(reverse("mine_change")))

    assert "Your sitting has begun or is over" in page
    assert "Cancel my sitting" not in page


def test_a_client_names_who_else_may_collect_and_takes_the_name_back(mine, order):
    browser = mine()
    browser.post(reverse("mine_named"), {"name": "Tiago Faria"})
    assert "<strong>Tiago Faria</strong> may collect your plates" in words(
        browser.get(reverse("mine_change"))
    )

    browser.post(reverse("mine_unnamed"))

    assert named_person(order) is None


def test_a_name_can_be_given_when_the_sitting_is_over_and_a_link_is_open_again(mine, order):
    builders.made_plates(order)

    answer = mine(NOON).post(reverse("mine_named"), {"name": "Tiago Faria"})

    assert (answer.status_code, named_person(order).name) == (302, "Tiago Faria")


def test_no_name_names_nobody(mine, order):
    answer = mine().post(reverse("mine_named"), {"name": " "})

    assert (answer.status_code, named_person(order)) == (400, None)
    assert "Write the name of who may collect your plates." in words(answer)


@pytest.mark.parametrize("country", ["ZZ", "QQ", "EU"])
def test_the_post_goes_to_countries_only(mine, order, country):
    builders.an_extra("By post", ExtraKind.POST, 1250)

    answer = mine().post(reverse("mine_by_post"), {"address": "Quay 3", "country": country})

    assert answer.status_code == 400
    assert "Write the two letters of the country, such as PT." in words(answer)
