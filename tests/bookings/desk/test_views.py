"""One order on the photographer's side: money, papers, another time, or none."""

from uuid import uuid4

import pytest
from django.urls import reverse

from bookings.orders.models import Order
from bookings.payments.models import Payment
from plates.bench.models import BenchJob
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

TWO = "2026-11-28T14:00:00+00:00"
NUL = "Null characters are not allowed."
WRONG_PAYMENTS = {
    "no amount": ({"amount": ""}, "Fill in: Amount (EUR)."),
    "nothing": ({"amount": "0"}, "Ensure this value is greater than or equal to 0.01."),
    "less than nothing": ({"amount": "-5"}, "Ensure this value is greater than or equal to 0.01."),
    "a word": ({"amount": "five"}, "Enter a number."),
    "no number": ({"amount": "NaN"}, "Enter a number."),
    "endless": ({"amount": "Infinity"}, "Enter a number."),
    "huge": ({"amount": "1e400"}, "Ensure that there are no more than 9 digits in total."),
    "tenths of a cent": ({"amount": "0.015"}, "This currency has 2 decimal places."),
    "a way to pay that is not there": (
        {"method": "barter"},
        "Select a valid choice. barter is not one of the available choices.",
    ),
    "the practice card": (
        {"method": "practice"},
        "Select a valid choice. practice is not one of the available choices.",
    ),
    "neither in nor out": ({"direction": ""}, "Fill in: direction."),
    "a reference with a NUL": ({"reference": "a\0"}, NUL),
    "a reference too long": (
        {"reference": "a" * 65},
        "Ensure this value has at most 64 characters (it has 65).",
    ),
    "a note with a NUL": ({"note": "a\0"}, NUL),
    "no key": ({"key": ""}, "Fill in: key."),
    "a key that is none": ({"key": "x"}, "Enter a valid UUID."),
}


@pytest.fixture
def order(day):
    return builders.a_placed_order(day)


def page_of(order, name="order"):
    return reverse(f"studio:{name}", args=[order.reference])


def pay(client, order, **changes):
    sent = {"direction": "received", "amount": "42.50", "method": "cash", "key": str(uuid4())} | changes
    return client.post(page_of(order), sent)


@pytest.mark.parametrize(("changes", "sentence"), WRONG_PAYMENTS.values(), ids=WRONG_PAYMENTS)
def test_a_payment_that_cannot_be_is_said_and_what_was_typed_is_kept(photographer, order, changes, sentence):
    response = pay(photographer, order, **({"note": "till"} | changes))

    page = Page(response)
    assert (response.status_code, page.errors) == (400, [sentence])
    assert page.fields["note"] == ({"note": "till"} | changes)["note"]
    assert page.fields["amount"] == ({"amount": "42.50"} | changes)["amount"]
    assert not Payment.objects.exists()


def test_a_payment_says_who_entered_it(photographer, order):
    response = pay(photographer, order)

    entered = Payment.objects.get()
    assert response.url == page_of(order)
    assert (entered.amount, entered.method, entered.recorded_by.username) == (4250, "cash", "operator")


def test_the_same_form_sent_twice_is_one_payment(photographer, order):
    key = str(uuid4())
    pay(photographer, order, key=key)

    again = pay(photographer, order, key=key)

    assert again.status_code == 302
    assert Payment.objects.count() == 1


def test_the_same_key_with_another_amount_is_refused_with_a_sentence(photographer, order):
    key = str(uuid4())
    pay(photographer, order, key=key)

    response = pay(photographer, order, key=key, amount="10.00")

    assert response.status_code == 400
    assert Page(response).errors[0].startswith("The ledger already holds a different payment under")
    assert Page(response).fields["amount"] == "10.00"


def test_money_given_back_is_a_negative_entry(photographer, order):
    pay(photographer, order)

    pay(photographer, order, direction="returned", amount="12.5")

    assert list(Payment.objects.values_list("amount", flat=True)) == [4250, -1250]


def test_an_order_without_a_name_takes_no_payment(photographer, day):
    held = builders.a_held_order(day)

    response = pay(photographer, held)

    assert response.status_code == 400
    assert Page(response).errors == ["Nobody has put a name to this order yet, so it cannot take a payment."]


@pytest.mark.parametrize(
    "start", ["", "x", "\0", "{day} 2026-11-28T14:00", "{day} 9999-12-31T23:59:00+00:00"]
)
def test_another_time_that_no_button_sends_is_refused(photographer, day, order, start):
    response = photographer.post(page_of(order, "move"), {"start": start.format(day=day.pk)})

    assert response.status_code == 409
    assert "Choose one of the start times shown." in Page(response).text


def test_a_move_to_a_day_that_is_not_there_is_refused(photographer, day, order):
    response = photographer.post(page_of(order, "move"), {"start": f"{day.pk + 99} {TWO}"})

    assert response.status_code == 409
    assert "That day is no longer kept. Choose another one." in Page(response).text


def test_a_move_to_a_taken_time_is_refused_on_the_clock_of_the_asked_day(photographer, day, order):
    """Azores: one hour behind UTC in winter (tz database, Atlantic/Azores)."""
    bench = builders.a_bench(name="Island bench", sitters_at_once=1)
    islands = builders.a_day(zone="Atlantic/Azores", bench=bench)
    builders.a_paid_order(islands)

    response = photographer.post(page_of(order, "move"), {"start": f"{islands.pk} 2026-11-28T11:00:00+00:00"})

    assert response.status_code == 409
    assert "The room is full of sitters from 10:" in Page(response).text
    assert Order.objects.get(pk=order.pk).sitting.day == day


def test_a_move_takes_the_new_time_and_gives_the_old_one_back(photographer, day, order):
    response = photographer.post(page_of(order, "move"), {"start": f"{day.pk} {TWO}"})

    assert response.url == page_of(order)
    assert [job.starts_at.isoformat() for job in BenchJob.objects.promised(NOW)] == [TWO]


def test_a_sitting_with_a_poured_plate_is_not_moved(photographer, day):
    order = builders.a_paid_order(day)
    builders.made_plates(order)

    response = photographer.post(page_of(order, "move"), {"start": f"{day.pk} {TWO}"})

    assert response.status_code == 409
    assert "A plate of this sitting has been poured" in Page(response).text


def test_looking_at_the_cancel_page_says_what_goes_back_and_changes_nothing(photographer, day):
    order = builders.a_paid_order(day)

    response = photographer.get(page_of(order, "cancel"))

    # Eight days before, free by the terms of the builders: the whole deposit of 42.50 goes back.
    assert "The client cancelled €0.00 €42.50" in Page(response).text
    assert Order.objects.get(pk=order.pk).cancelled_at is None


def test_a_cancelled_sitting_frees_its_place(photographer, day):
    order = builders.a_paid_order(day)

    photographer.post(page_of(order, "cancel"), {"cause": "client"})

    assert Order.objects.get(pk=order.pk).cancelled_at == NOW
    assert not BenchJob.objects.promised(NOW).exists()


def test_a_sitting_with_a_poured_plate_is_not_cancelled(photographer, day):
    order = builders.a_paid_order(day)
    builders.made_plates(order)

    response = photographer.post(page_of(order, "cancel"), {"cause": "studio"}, follow=True)

    assert "A plate of this sitting has been poured" in Page(response).text
    assert Order.objects.get(pk=order.pk).cancelled_at is None


@pytest.mark.parametrize("words", ["madru", "INES@", "{reference}", " ines "])
def test_orders_are_found_by_name_address_and_reference(photographer, order, words):
    response = photographer.get(reverse("studio:orders"), {"q": words.format(reference=order.reference)})

    assert page_of(order) in Page(response).links


@pytest.mark.parametrize("words", ["nobody", "%", "_", "\\", "'", "x" * 100])
def test_words_that_no_order_has_find_none_and_are_kept(photographer, order, words):
    response = photographer.get(reverse("studio:orders"), {"q": words})

    assert response.status_code == 200
    assert page_of(order) not in Page(response).links


@pytest.mark.parametrize("words", ["ines\0", "\0", "ines" + " " * 60_000 + "x"])
def test_what_no_database_can_look_for_is_left_out(photographer, order, words):
    """PostgreSQL keeps no NUL in a text; SQLite compares no pattern above 50 000 bytes (its limits page, 8)."""
    response = photographer.get(reverse("studio:orders"), {"q": words})

    assert page_of(order) in Page(response).links


@pytest.mark.parametrize("reference", ["AAAA2222", "%00", "a" * 300, "%F0%9F%93%B7"])
@pytest.mark.parametrize("end", ["", "made-out-to/", "pickup.pdf", "cancel/", "move/"])
def test_an_order_that_is_not_there_is_not_found(photographer, day, reference, end):
    assert photographer.get(f"/studio/orders/{reference}/{end}").status_code == 404
