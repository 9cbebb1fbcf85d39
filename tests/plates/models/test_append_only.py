"""Ledgers can be added to and never changed: the database itself refuses, on SQLite and on PostgreSQL.

On SQLite only changes are refused; deletion has to stay possible there, because that is how test databases are emptied.
"""

from datetime import UTC, datetime, timedelta

import pytest
from django.db import IntegrityError, connection, transaction

from bookings.models import Invoice, InvoiceLine, Payment
from bookings.services import invoices
from plates.models import PlateEvent
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

LATER = datetime(2026, 11, 28, 12, 0, tzinfo=UTC)


@pytest.fixture
def ledgers():
    """An order with a row in every ledger."""
    order = builders.a_paid_order(builders.a_day())
    builders.made_plates(order)
    invoices.issue(order_id=order.pk, now=NOW)


CHANGES = [
    (PlateEvent, {"at": LATER}),
    (PlateEvent, {"note": "not so"}),
    (Payment, {"amount": 1}),
    (Payment, {"reference": "another"}),
    (Invoice, {"issued_on": LATER.date() + timedelta(days=1)}),
    (Invoice, {"buyer": {}}),
    (InvoiceLine, {"text": "Something else"}),
]


@pytest.mark.parametrize(("model", "change"), CHANGES)
def test_no_row_of_a_ledger_can_be_changed(ledgers, model, change):
    table = model._meta.db_table
    before = list(model.objects.order_by("pk").values())

    with (
        pytest.raises(IntegrityError, match=f"{table} is append-only: add a correcting row instead"),
        transaction.atomic(),
    ):
        model.objects.update(**change)

    assert list(model.objects.order_by("pk").values()) == before != []


@pytest.mark.parametrize("model", [PlateEvent, Payment, InvoiceLine])
def test_no_row_of_a_ledger_can_be_deleted_on_postgresql(ledgers, model):
    if connection.vendor == "sqlite":
        assert model.objects.all().delete()[0] > 0  # said plainly in plates/append_only.py
        return

    with (
        pytest.raises(IntegrityError, match="is append-only: add a correcting row instead"),
        transaction.atomic(),
    ):
        model.objects.all().delete()
