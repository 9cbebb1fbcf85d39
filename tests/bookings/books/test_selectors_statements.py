"""The statement of one client. A quarter plate comes to 85.00, a half plate to 125.00, half of it the deposit."""

from datetime import UTC, date, datetime, timedelta

import pytest

from bookings.books.selectors import statements
from bookings.orders.models import Client, Order
from tests import builders
from tests.builders import NOW
from tests.builders.invoices import a_credit_note, an_invoice

pytestmark = pytest.mark.django_db


def statement_of(order):
    return statements.statement(order.client, now=NOW)


def rows(order):
    [account] = statement_of(order).accounts
    return [(entry.on, entry.text, entry.asked, entry.paid, entry.balance) for entry in account.entries]


def test_papers_and_money_stand_in_the_order_of_their_dates_with_the_balance_after_each(day):
    invoice = an_invoice(day, now=NOW + timedelta(days=1))
    builders.pay(invoice.order, 4250, now=NOW + timedelta(days=2))
    a_credit_note(invoice, now=NOW + timedelta(days=3))
    builders.pay(invoice.order, -8500, now=NOW + timedelta(days=4))

    assert rows(invoice.order) == [
        (date(2026, 11, 20), "Paid: Cash", 0, 4250, -4250),
        (date(2026, 11, 21), "Invoice INV-2026-0001", 8500, 0, 4250),
        (date(2026, 11, 22), "Paid: Cash", 0, 4250, 0),
        (date(2026, 11, 23), "Credit note CRN-2026-0001", -8500, 0, -8500),
        (date(2026, 11, 24), "Given back: Cash", 0, -8500, 0),
    ]


def test_all_orders_under_one_address_are_one_client_however_it_is_written(day):
    first = an_invoice(day, email="ines@example.org").order
    an_invoice(day, email="Ines@Example.org", sizes=["half"])
    an_invoice(day, email="ines.other@example.org")

    assert len(rows(first)) == 4
    assert rows(first)[-1][-1] == 4250 + 6250


def test_what_is_owed_is_told_apart_from_what_was_paid_ahead_in_each_currency(day):
    order = an_invoice(day).order
    ahead = builders.a_paid_order(day, sizes=["half"])  # its deposit: no invoice yet
    [account] = statement_of(order).accounts
    assert (account.owed, account.ahead, account.balance) == (4250, 6250, -2000)

    Order.objects.filter(pk=ahead.pk).update(currency="GBP")

    assert [account.currency for account in statement_of(order).accounts] == ["EUR", "GBP"]


def test_money_is_dated_by_the_clock_of_the_venue():
    # Noon of 20 November in UTC is one in the morning of the 21st in Auckland (tz database: UTC+13 in its summer).
    order = builders.a_paid_order(
        builders.a_day(zone="Pacific/Auckland"), now=datetime(2026, 11, 20, 12, tzinfo=UTC)
    )

    assert [entry[0] for entry in rows(order)] == [date(2026, 11, 21)]


def test_a_client_who_was_erased_has_no_statement_though_the_invoice_keeps_the_name(day):
    invoice = an_invoice(day)
    Client.objects.update(name="", email="")

    assert statement_of(Order.objects.get(pk=invoice.order_id)) is None
    assert invoice.buyer["name"] == "Ines Madrugada"
    assert statements.clients(words="ines") == []


def test_clients_are_found_by_name_or_address_once_each(day):
    builders.a_placed_order(day, name="Ines Madrugada", email="ines@example.org")
    newest = builders.a_placed_order(day, name="I. Madrugada", email="INES@example.org").client
    other = builders.a_placed_order(day, name="Wren Achterberg", email="wren@example.org").client

    assert statements.clients(words="") == [(other, 1), (newest, 2)]
    assert statements.clients(words="achter") == [(other, 1)]
    assert statements.clients(words="Ines@") == [(newest, 2)]


def test_more_orders_take_no_more_queries(day, django_assert_num_queries):
    order = an_invoice(day).order
    with django_assert_num_queries(3):
        statement_of(order)
    for _ in range(4):
        an_invoice(day)

    with django_assert_num_queries(3):
        statement_of(order)
