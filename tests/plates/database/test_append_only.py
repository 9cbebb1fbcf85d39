"""Ledgers can be added to, never changed and never deleted from: the database itself refuses, on SQLite and PostgreSQL.

Said to it in SQL of its own, as somebody would who goes past the site.
"""

import pytest
from django.db import IntegrityError, connection, transaction

from bookings.invoices.services import issuing as invoices
from bookings.payments.models import CashUp
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db


@pytest.fixture
def ledgers():
    """An order with a row in every ledger."""
    order = builders.a_paid_order(builders.a_day())
    builders.made_plates(order)
    invoices.issue(order_id=order.pk, now=NOW)
    CashUp.objects.create(
        opened_with=0,
        came_in=4250,
        counted=4250,
        difference=0,
        currency="EUR",
        at=NOW,
        counted_by=builders.an_operator(),
    )


def rows_of(table):
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT * FROM {table} ORDER BY id")
        return cursor.fetchall()


def refused(table, statement):
    """Whether the database refuses the statement with its sentence and keeps every row as it was."""
    before = rows_of(table)
    sentence = f"{table} is append-only: add a correcting row instead"
    with (
        pytest.raises(IntegrityError, match=sentence),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute(statement)
    return rows_of(table) == before != []


CHANGES = [
    ("plates_plateevent", "at = '2026-11-28 12:00:00+00:00'"),
    ("plates_plateevent", "note = 'not so'"),
    ("bookings_payment", "amount = 1"),
    ("bookings_payment", "reference = 'another'"),
    ("bookings_invoice", "issued_on = '2026-11-29'"),
    ("bookings_invoice", "buyer = '{}'"),
    ("bookings_invoiceline", "text = 'Something else'"),
    ("bookings_cashup", "counted = 1, difference = -4249"),
]
LEDGERS = list(dict.fromkeys(table for table, _ in CHANGES))


@pytest.mark.parametrize(("table", "change"), CHANGES, ids=[f"{table} {set_}" for table, set_ in CHANGES])
def test_no_row_of_a_ledger_can_be_changed(ledgers, table, change):
    assert refused(table, f"UPDATE {table} SET {change}")


@pytest.mark.parametrize("table", LEDGERS)
def test_no_row_of_a_ledger_can_be_deleted(ledgers, table):
    assert refused(table, f"DELETE FROM {table}")


@pytest.mark.parametrize("table", LEDGERS)
def test_no_row_of_a_ledger_can_be_replaced(ledgers, table):
    """SQLite documentation, "ON CONFLICT": what REPLACE deletes fires triggers if recursive triggers are on."""
    if connection.vendor != "sqlite":
        return  # PostgreSQL has no such statement
    assert refused(table, f"INSERT OR REPLACE INTO {table} SELECT * FROM {table}")
