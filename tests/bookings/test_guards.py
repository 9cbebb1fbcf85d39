"""What was agreed and what was sold stay as they were: the database itself refuses to change them."""

from datetime import date
from uuid import uuid4

import pytest
from django.db import IntegrityError, connection, transaction

from bookings.pricing.models import Terms
from bookings.vouchers.models import Voucher
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

AGREED = "An order has agreed to these terms, so they stay as they are: write a new version instead"
AS_SOLD = "What a voucher is worth and its code stay as they were sold: give out another one instead"


def execute(statement):
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(statement)


@pytest.fixture
def agreed():
    """Terms that an order points at."""
    return builders.a_held_order(builders.a_day()).terms


@pytest.fixture
def voucher():
    return Voucher.objects.create(
        code="GIFT",
        submission_key=uuid4(),
        amount=5000,
        currency="EUR",
        buyer_name="Ines",
        buyer_email="ines@example.org",
        asked_at=NOW,
    )


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE bookings_terms SET text = 'Nothing is ever given back.'",
        "UPDATE bookings_terms SET kept_share_bp = 1",
        "DELETE FROM bookings_terms",
    ],
    ids=["words", "share", "gone"],
)
def test_terms_that_an_order_agreed_to_stay_as_they_are(agreed, statement):
    with pytest.raises(IntegrityError, match=AGREED):
        execute(statement)

    assert Terms.objects.values().get() == Terms.objects.filter(pk=agreed.pk).values().get()
    assert Terms.objects.get().text == agreed.text


def test_terms_that_nobody_agreed_to_can_be_put_right_and_thrown_away(agreed):
    draft = Terms.objects.create(
        version="draft", holds_from=date(2027, 1, 1), deposit_share_bp=5000, text="A drfat"
    )

    execute("UPDATE bookings_terms SET text = 'A draft' WHERE version = 'draft'")

    draft.refresh_from_db()
    assert draft.text == "A draft"
    execute("DELETE FROM bookings_terms WHERE version = 'draft'")
    assert list(Terms.objects.values_list("pk", flat=True)) == [agreed.pk]


@pytest.mark.parametrize("change", ["amount = 50000", "code = 'GIFT2'", "currency = 'USD'"])
def test_what_a_voucher_was_sold_as_stays(voucher, change):
    with pytest.raises(IntegrityError, match=AS_SOLD):
        execute(f"UPDATE bookings_voucher SET {change}")

    assert Voucher.objects.values("amount", "code", "currency").get() == {
        "amount": 5000, "code": "GIFT", "currency": "EUR",
    }  # fmt: skip


def test_everything_else_about_a_voucher_can_be_saved(voucher):
    voucher.buyer_name, voucher.withdrawn_at = "Ines Madrugada", NOW

    voucher.save()

    assert Voucher.objects.get().withdrawn_at == NOW
