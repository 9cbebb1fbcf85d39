"""What becomes of the books when the database fails: at every single statement of everything that moves money.

Each service is run again and again, and its n-th statement raises, for n = 1 up to the last. After each fault the books
are as if nothing had been asked for. Money that comes in is the exception: it is kept, and what it pays for comes next.
"""

from datetime import UTC, datetime, timedelta

import pytest
from django.contrib.auth.models import User
from django.db import OperationalError, connection, transaction

from bookings.changes.services import sittings
from bookings.invoices.models import DocumentKind, Invoice, InvoiceSeries
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import CancelCause, Order
from bookings.orders.selectors.account import account
from bookings.payments import selectors as cash
from bookings.payments.models import CashUp, Method, Payment
from bookings.payments.services import cash as cash_services
from bookings.payments.services import ledger as payments
from bookings.pricing.models import Terms
from bookings.vouchers.models import Voucher
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

LATE = datetime(2026, 11, 27, 10, 0, tzinfo=UTC)
NOON = datetime(2026, 11, 28, 12, 0, tzinfo=UTC)
MOST_STATEMENTS = 200


class Fault(OperationalError):
    """The database went away."""


@pytest.fixture
def order():
    """A paid order that another one was invoiced before, so that there is a number to go on from."""
    day = builders.a_day()
    Terms.objects.update(late_move_bp=2000)
    builders.an_operator()
    earlier = builders.a_paid_order(day, at=datetime(2026, 11, 28, 14, 0, tzinfo=UTC))
    invoices.issue(order_id=earlier.pk, now=NOW)
    return builders.a_paid_order(day)


def broken_identities():
    """Every rule of the books that does not hold, in words."""
    of_orders = [words for order in Order.objects.all() for words in broken_of_order(order)]
    of_series = [words for series in InvoiceSeries.objects.all() for words in broken_of_series(series)]
    of_invoices = [words for invoice in Invoice.objects.all() for words in broken_of_invoice(invoice)]
    in_ledger = sum(Payment.objects.filter(method=Method.CASH).values_list("amount", flat=True))
    in_boxes = cash.cash_box(currency="EUR").came_in + sum(CashUp.objects.values_list("came_in", flat=True))
    return of_orders + of_series + of_invoices + ([] if in_boxes == in_ledger else ["cash box"])


def broken_of_order(order):
    """The balance is the sum; a cancelled order has a sum that is kept and no place; a late move has its line."""
    paid, money = sum(payment.amount for payment in order.payments.all()), account(order)
    cancelled, place = order.cancelled_at is not None, order.sitting.bench_job
    moved = order.sitting.calendar_sequence > 0 and not cancelled
    rules = {
        "balance": (money.paid, money.owed) == (paid, money.gross - paid) and paid >= 0,
        "kept": cancelled == (order.kept is not None) and (order.kept or 0) <= paid,
        "place": cancelled == (place.released_at is not None),
        "late line": moved == order.lines.filter(kind="late_move").exists(),
    }
    return [f"{order}: {name}" for name, holds in rules.items() if not holds]


def broken_of_series(series):
    """Numbers run from one to the last without a gap."""
    numbers = sorted(series.invoices.values_list("number", flat=True))
    return [] if numbers == list(range(1, series.last + 1)) else [f"{series}: {numbers} of {series.last}"]


def broken_of_invoice(invoice):
    """The lines add up to the net, an invoice to what its order costs, what is taken back of it to no more than it."""
    lines = list(invoice.lines.all())
    adds_up = lines != [] and sum(line.net for line in lines) == invoice.net
    charged = invoice.kind != DocumentKind.INVOICE or (
        invoice.total + invoice.rounding == account(invoice.order).gross
    )
    taken_back = sum(note.total for note in invoice.credit_notes.all()) in (0, invoice.total)
    return [] if adds_up and charged and taken_back else [f"{invoice}"]


def books():
    """All rows of the books, to tell whether anything was left behind."""
    models = (Payment, Invoice, InvoiceSeries, CashUp, Voucher)
    rows = [list(model.objects.order_by("pk").values()) for model in models]
    orders = Order.objects.order_by("pk").values("kept", "cancelled_at", "cancel_cause", "lines__kind")
    letters = Order.objects.order_by("pk").values_list("notices__kind", "notices__occasion")
    return rows, list(orders), list(letters)


def pay(order, amount=4250):
    facts = {"method": Method.CASH, "reference": "one", "now": NOW + timedelta(hours=1)}
    return payments.record(order_id=order.pk, amount=amount, **facts)


def credit(order):
    invoice = Invoice.objects.get(kind=DocumentKind.INVOICE)
    return credit_notes.issue(invoice_id=invoice.pk, reason="made out anew", now=NOW)


def count_cash(order):
    box, operator = cash.cash_box(currency="EUR"), User.objects.get()
    return cash_services.count(counted=8000, note="short", shown=box, counted_by=operator, now=NOW)


ACTS = {
    "pay": pay,
    "refund": lambda order: pay(order, -1000),
    "issue": lambda order: invoices.issue(order_id=order.pk, now=NOW),
    "credit": credit,
    "cancel": lambda order: sittings.cancel(
        order_id=order.pk, cause=CancelCause.CLIENT, now=LATE, shown=4250
    ),
    "move late": lambda order: sittings.move(
        order_id=order.pk, day_id=order.sitting.day_id, starts_at=NOON, now=LATE, shown=850
    ),
    "count cash": count_cash,
}
IN_TWO_STEPS = {"pay", "refund"}


class FailAt:
    """Let some statements pass, then let the n-th one fail: those that make and release savepoints count too."""

    def __init__(self, nth):
        self.left = nth

    def __call__(self, execute, sql, params, many, context):
        self.left -= 1
        if self.left == 0:
            raise Fault("the database went away")
        return execute(sql, params, many, context)


def failed_at(act, order, nth):
    """Whether the act came to its n-th statement, and whether it was refused for that fault.

    Django swallows one that meets the looking at a constraint: the row itself is then checked by the database.
    """
    fault, asked = FailAt(nth), Order.objects.get(pk=order.pk)
    try:
        with connection.execute_wrapper(fault):
            act(asked)
    except Fault:
        return True, True
    return fault.left <= 0, False


@pytest.mark.parametrize("act", ACTS)
def test_a_fault_at_any_statement_leaves_the_books_whole(order, act):
    before, nth, struck = books(), 0, True
    assert broken_identities() == []

    while struck:
        nth += 1
        # Each fault meets the same books: this transaction is only there to be rolled back.
        with transaction.atomic():
            struck, refused = failed_at(ACTS[act], order, nth)
            after = books()
            if after != before:
                assert act in IN_TWO_STEPS or not refused
                assert (nth, broken_identities()) == (nth, [])
            transaction.set_rollback(True)

    assert 5 < nth < MOST_STATEMENTS
    assert after != before
