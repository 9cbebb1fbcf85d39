"""What the photographer fills in becomes clean values, or a sentence."""

from datetime import UTC, datetime, time
from decimal import Decimal
from uuid import UUID, uuid4

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.day.forms import SpoilForm
from bookings.payments.forms import PaymentForm
from bookings.payments.models import Method
from bookings.planner.forms.days import OpenDayForm
from plates.bench.models import SpoiltReason
from tests import builders


def payment(currency="EUR", **changes):
    typed = {"direction": "received", "amount": "42.50", "method": "cash", "key": str(uuid4())} | changes
    return PaymentForm(typed, currency=currency)


@pytest.mark.parametrize(
    # The number of decimal places is that of ISO 4217: euro 2, yen 0, dinars of Bahrain, Kuwait and Tunisia 3.
    ("currency", "typed", "minor"),
    [
        ("EUR", "42.50", 4250),
        ("EUR", "1E+3", 100_000),
        ("EUR", "0.01", 1),
        ("JPY", "8500", 8500),
        ("TND", "1.25", 1250),
        ("BHD", "0.001", 1),
        ("KWD", "12.345", 12345),
    ],
)
def test_an_amount_is_kept_in_the_smallest_unit_of_its_currency(currency, typed, minor):
    form = payment(currency, amount=typed)

    assert form.is_valid()
    assert form.payment()["amount"] == minor


@pytest.mark.parametrize(
    ("currency", "typed", "sentence"),
    [
        ("JPY", "8.50", "This currency has 0 decimal places."),
        ("EUR", "8.505", "This currency has 2 decimal places."),
        ("KWD", "8.5005", "This currency has 3 decimal places."),
        ("EUR", "0", "Ensure this value is greater than or equal to 0.01."),
        ("KWD", "0.000", "Ensure this value is greater than or equal to 0.001."),
        ("JPY", "0", "Ensure this value is greater than or equal to 1."),
        ("JPY", "", "Fill in: Amount (JPY)."),
    ],
)
def test_a_part_of_the_smallest_unit_and_less_than_one_are_refused(currency, typed, sentence):
    assert payment(currency, amount=typed).errors["amount"] == [sentence]


@pytest.mark.parametrize(("currency", "step"), [("JPY", "1"), ("EUR", "0.01"), ("BHD", "0.001")])
def test_the_field_steps_by_the_smallest_unit(currency, step):
    assert f'step="{step}"' in str(PaymentForm(currency=currency)["amount"])


@pytest.mark.parametrize("currency", ["EUR", "KWD"])
def test_the_amount_stays_where_the_photographer_looks_for_it(currency):
    assert list(PaymentForm(currency=currency).fields)[:2] == ["direction", "amount"]


@given(minor=st.integers(1, 10**9 - 1), direction=st.sampled_from([("received", 1), ("returned", -1)]))
def test_every_amount_of_cents_is_read_without_loss_and_given_back_with_a_minus(minor, direction):
    word, sign = direction

    form = payment(amount=str(Decimal(minor).scaleb(-2)), direction=word)

    assert form.is_valid()
    assert form.payment()["amount"] == sign * minor


def test_a_payment_without_a_reference_is_known_by_the_key_of_its_form():
    key = str(uuid4())
    form = payment(key=key, reference="  ")

    assert form.is_valid()
    assert form.payment()["reference"] == key


def test_a_reference_that_was_written_is_kept():
    form = payment(reference=" bank 2026-11-20/7 ", method="transfer", note="left envelope")

    assert form.is_valid()
    assert form.payment() == {
        "amount": 4250,
        "method": Method.TRANSFER,
        "reference": "bank 2026-11-20/7",
        "note": "left envelope",
    }


def test_every_payment_form_that_is_shown_has_a_key_of_its_own():
    keys = {UUID(str(PaymentForm(currency="EUR")["key"].value())) for _ in range(3)}

    assert len(keys) == 3


def test_only_money_that_is_taken_by_hand_is_offered_to_the_photographer():
    offered = [value for value, _ in PaymentForm(currency="EUR").fields["method"].choices]

    assert offered == ["cash", "transfer", "terminal"]


@pytest.mark.parametrize("reason", SpoiltReason.values)
def test_every_reason_can_be_given(reason):
    assert SpoilForm({"reason": reason}).is_valid()


def test_what_has_to_be_filled_in_is_named():
    assert SpoilForm({}).errors == {"reason": ["Fill in: reason."]}


@pytest.mark.django_db
def test_hours_are_those_of_the_venues_clock():
    day = builders.a_day()

    form = OpenDayForm(
        {
            "venue": day.venue_id,
            "bench": day.bench_day.bench_id,
            "on": "2026-11-29",
            "opens": "10:00",
            "closes": "18:00",
            "racks_empty_by": "19:15",
            "start_every": "20",
        },
        now=builders.NOW,
    )

    assert form.is_valid()
    hours = form.hours()
    assert (hours.opens, hours.closes, hours.racks_empty_by, hours.start_every) == (
        time(10),
        time(18),
        time(19, 15),
        20,
    )


@pytest.mark.django_db
@pytest.mark.parametrize(
    # Two years after 29 February 2028 comes 28 February or 1 March 2030.
    ("now", "on", "allowed"),
    [
        (datetime(2028, 2, 29, 12, tzinfo=UTC), "2030-02-28", True),
        (datetime(2028, 2, 29, 12, tzinfo=UTC), "2030-03-01", False),
        (datetime(2026, 2, 28, 12, tzinfo=UTC), "2028-02-28", True),
        (datetime(2026, 2, 28, 12, tzinfo=UTC), "2028-02-29", False),
    ],
)
def test_two_years_ahead_reach_no_further_in_a_leap_year(now, on, allowed):
    day = builders.a_day()
    typed = {"venue": day.venue_id, "bench": day.bench_day.bench_id, "on": on}

    form = OpenDayForm(typed, now=now)

    assert ("on" not in form.errors) is allowed
