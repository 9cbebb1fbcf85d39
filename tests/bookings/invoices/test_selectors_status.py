"""Where an invoice stands, from documents and ledger alone. An order of one quarter plate comes to 85.00."""

from datetime import UTC, date, datetime, timedelta

import pytest

from bookings.day.selectors.alerts import open_troubles
from bookings.invoices.models import Invoice
from bookings.invoices.selectors import status as books
from bookings.invoices.selectors.status import State, status_of
from tests import builders
from tests.builders import NOW
from tests.builders.invoices import a_credit_note, an_invoice, broad_day

pytestmark = pytest.mark.django_db

DUE = date(2026, 12, 4)  # 20 November and the studio's 14 days
LAST_MINUTE = datetime(2026, 12, 4, 23, 59, tzinfo=UTC)  # Lisbon is on UTC in winter
PAST = LAST_MINUTE + timedelta(minutes=1)


@pytest.fixture
def day():
    return broad_day()


def told(invoice, *, now=NOW):
    standing = status_of(invoice, now=now)
    return standing.state, standing.left, standing.since


@pytest.mark.parametrize(
    ("zone", "last"),
    # Lisbon is on UTC in winter; Auckland is 13 hours ahead in its summer (tz database).
    [("Europe/Lisbon", LAST_MINUTE), ("Pacific/Auckland", datetime(2026, 12, 4, 10, 59, tzinfo=UTC))],
)
def test_an_invoice_is_open_until_the_end_of_its_last_day_at_the_venue(zone, last):
    invoice = an_invoice(builders.a_day(zone=zone))

    assert invoice.due_on == DUE
    assert told(invoice, now=last) == (State.OPEN, 4250, None)
    assert told(invoice, now=last + timedelta(minutes=1)) == (State.OVERDUE, 4250, date(2026, 12, 5))


def test_an_invoice_is_paid_when_the_rest_has_come_and_open_again_when_it_goes_back(day):
    invoice = an_invoice(day)
    builders.pay(invoice.order, 4250)
    assert told(invoice, now=PAST) == (State.PAID, 0, None)

    builders.pay(invoice.order, -1000)

    assert told(invoice, now=PAST) == (State.OVERDUE, 1000, date(2026, 12, 5))


def test_what_was_taken_back_is_not_asked_for_and_a_credit_note_stands_for_nothing_by_itself(day):
    invoice = an_invoice(day, extras={builders.an_extra(): 1})  # 115.00, of which 57.50 is paid
    a_credit_note(invoice, lines=invoice.lines.filter(text="Velvet case"))
    assert told(invoice) == (State.OPEN, 8500 - 5750, None)

    note = a_credit_note(invoice)

    assert told(invoice, now=PAST) == (State.CREDITED, 0, None)
    with pytest.raises(Invoice.DoesNotExist, match="is not an invoice"):
        status_of(note, now=NOW)


def test_open_invoices_are_those_with_something_left_the_first_due_at_the_top(day):
    builders.a_studio(payment_days=30)
    late = an_invoice(day)
    builders.a_studio(payment_days=14)
    early = an_invoice(day)
    builders.pay(an_invoice(day).order, 4250)
    a_credit_note(an_invoice(day))
    builders.a_paid_order(day)

    assert [each.invoice for each in books.open_invoices(now=NOW)] == [early, late]


def test_more_open_invoices_take_no_more_queries(day, django_assert_num_queries):
    for count in (1, 4):
        while Invoice.objects.count() < count:
            an_invoice(day)
        with django_assert_num_queries(4):
            assert len(books.open_invoices(now=NOW)) == count


def test_an_overdue_invoice_is_among_the_troubles_and_a_paid_one_asks_one_query(
    day, django_assert_num_queries
):
    invoice = an_invoice(day)
    assert not open_troubles(now=LAST_MINUTE)
    [overdue] = open_troubles(now=PAST).overdue
    assert (overdue.invoice, overdue.left) == (invoice, 4250)
    builders.pay(invoice.order, 4250)

    with django_assert_num_queries(1):
        troubles = open_troubles(now=PAST)

    assert not troubles
