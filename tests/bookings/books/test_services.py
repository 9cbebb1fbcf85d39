"""Entering by one press what is left of an invoice."""

import pytest

from bookings.books import services as settling
from bookings.errors import NothingOwed, ReferenceTaken
from bookings.invoices.models import Invoice
from bookings.invoices.selectors.status import State, status_of
from bookings.payments.models import Payment
from plates.bench.models import BenchJob
from tests import builders
from tests.builders import NOW
from tests.builders.invoices import a_credit_note, an_invoice, issued

pytestmark = pytest.mark.django_db


@pytest.fixture
def invoice():
    return an_invoice(builders.a_day())


def mark_paid(invoice, reference="bank 17"):
    return settling.mark_paid(invoice_id=invoice.pk, reference=reference, now=NOW)


def test_what_is_left_is_entered_once_as_a_transfer_under_the_banks_reference(invoice):
    payment = mark_paid(invoice)

    facts = (payment.amount, payment.method, payment.reference, payment.note)
    assert facts == (4250, "transfer", "bank 17", "INV-2026-0001")
    assert status_of(invoice, now=NOW).state == State.PAID
    assert mark_paid(invoice) == payment
    with pytest.raises(NothingOwed, match=r"^Nothing is left to pay on INV-2026-0001\.$"):
        mark_paid(invoice, "bank 18")
    assert Payment.objects.count() == 2  # the deposit, and this


def test_neither_an_invoice_that_was_taken_back_nor_its_credit_note_is_paid(invoice):
    note = a_credit_note(invoice)

    with pytest.raises(NothingOwed):
        mark_paid(invoice)
    with pytest.raises(Invoice.DoesNotExist):
        mark_paid(note)


def test_a_reference_that_another_payment_has_is_refused(invoice):
    builders.pay(invoice.order, 100, reference="bank 17")

    with pytest.raises(ReferenceTaken, match="already holds a different payment under 'bank 17'"):
        mark_paid(invoice)


def test_a_sitting_that_waited_for_its_deposit_is_confirmed():
    order = builders.a_placed_order(builders.a_day())
    builders.made_plates(order)

    mark_paid(issued(order))

    assert BenchJob.objects.get().confirmed_at == NOW
