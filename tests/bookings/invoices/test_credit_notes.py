"""Credit notes: an invoice less all that was taken back of it is nothing, in every sum.

Outside: EN 16931 (a credit note is of type 381, UNTDID 1001, its sums positive, and it names its invoice, BT-25; from
public copies of its validation rules).
"""

from collections import Counter
from datetime import timedelta

import pytest
from django.db import IntegrityError, transaction
from hypothesis import given, settings
from hypothesis import strategies as st

from bookings.errors import CreditRefused
from bookings.invoices.models import InvoiceLine, InvoiceSeries
from bookings.invoices.services import credit_notes
from bookings.invoices.services import issuing as invoices
from bookings.pricing.models import TaxClass
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db
LATER = NOW + timedelta(days=3)


def an_invoice():
    """Five lines at three rates, that round in both directions."""
    reduced = TaxClass.objects.get_or_create(name="Reduced", category="S", rate_bp=600)[0]
    exempt = TaxClass.objects.get_or_create(
        name="Exempt", category="E", rate_bp=0, exemption_reason="Exempt by law"
    )[0]
    extras = {}
    for name, amount, tax_class in (("Scan", 1999, reduced), ("Post", 777, exempt)):
        extra = builders.an_extra(name, amount=amount)
        extra.tax_class = tax_class
        extra.save()
        extras[extra] = 3
    order = builders.a_paid_order(builders.a_day(), sizes=["sixth", "quarter", "half"], extras=extras)
    return invoices.issue(order_id=order.pk, now=NOW)


def taken_back(invoice, *lines, reason="One plate less"):
    chosen = [line.pk for line in lines] or None
    return credit_notes.issue(invoice_id=invoice.pk, reason=reason, line_ids=chosen, now=LATER)


def taxes(documents):
    taxed = Counter()
    for document in documents:
        for group in document.breakdown:
            for sum_of in ("taxable", "tax"):
                taxed[group["category"], group["rate_bp"], sum_of] += group[sum_of]
    return taxed


def test_a_whole_credit_note_mirrors_its_invoice():
    invoice = an_invoice()

    note = taken_back(invoice, reason=" Made out to the wrong name ")

    assert (note.kind, note.label, note.corrects) == ("381", "CRN-2026-0001", invoice)
    assert (note.reason, note.issued_on, note.due_on) == ("Made out to the wrong name", LATER.date(), None)
    same = ("net", "tax", "total", "rounding", "breakdown", "seller", "buyer", "supplied_on", "currency")
    assert {name: getattr(note, name) for name in same} == {name: getattr(invoice, name) for name in same}
    assert (note.prepaid, note.due) == (0, invoice.total + invoice.rounding)
    mirrored = ("text", "quantity", "unit_amount", "net", "tax_category", "tax_rate_bp")
    assert list(note.lines.values(*mirrored)) == list(invoice.lines.values(*mirrored))
    assert [line.credits for line in note.lines.all()] == list(invoice.lines.all())


@settings(max_examples=12)
@given(parts=st.lists(st.integers(0, 3), min_size=5, max_size=5))
def test_an_invoice_less_all_its_credit_notes_is_nothing(parts):
    with transaction.atomic():
        invoice = an_invoice()
        lines = list(invoice.lines.all())

        for part in sorted(set(parts))[:-1]:
            taken_back(invoice, *(line for line, at in zip(lines, parts, strict=True) if at == part))
        taken_back(invoice)  # what is left

        notes = list(invoice.credit_notes.all())
        for name in ("net", "tax", "total", "rounding"):
            assert sum(getattr(note, name) for note in notes) == getattr(invoice, name)
        assert taxes(notes) == taxes([invoice])
        assert sorted(note.number for note in notes) == list(range(1, len(set(parts)) + 1))
        transaction.set_rollback(True)


def test_a_line_is_taken_back_once_only_which_the_database_holds_too():
    invoice = an_invoice()
    first, second, *_ = invoice.lines.all()
    note = taken_back(invoice, first)

    with pytest.raises(CreditRefused, match="has been taken back already"):
        taken_back(invoice, first, second)
    again = InvoiceLine(invoice=note, position=9, text="x", quantity=1, unit_amount=1, net=1, tax_category="Z",
                        tax_rate_bp=0, credits=first)  # fmt: skip
    with pytest.raises(IntegrityError), transaction.atomic():
        again.save()

    assert InvoiceSeries.objects.get(prefix="CRN").last == 1


def test_what_cannot_be_taken_back_is_refused():
    invoice = an_invoice()
    stranger = InvoiceLine(pk=invoice.lines.last().pk + 1000)
    with pytest.raises(CreditRefused, match=r"^Say why"):
        taken_back(invoice, reason=" ")
    with pytest.raises(CreditRefused, match=r"^Of these lines at least one"):
        taken_back(invoice, invoice.lines.first(), stranger)
    note = taken_back(invoice)

    with pytest.raises(CreditRefused, match=r"^Of these lines at least one"):
        taken_back(invoice)
    with pytest.raises(CreditRefused, match=r"^A credit note cannot"):
        taken_back(note)


def with_a_discount():
    """Lines of 65.00, 85.00 and 23.31 that are left, and a discount of 100.00 that its sums leave out."""
    invoice = an_invoice()
    small, large, half, scan, _post = invoice.lines.all()
    taken_back(invoice, half, scan)
    discount = InvoiceLine.objects.create(
        invoice=invoice, position=9, text="Discount", quantity=-1, unit_amount=10000, net=-8130, tax_category="S",
        tax_rate_bp=2300,
    )  # fmt: skip
    return invoice, {"small": small, "large": large, "discount": discount}


def test_a_discount_is_taken_back_only_with_what_it_was_given_for():
    invoice, lines = with_a_discount()
    for alone in (lines["discount"], lines["large"]):
        with pytest.raises(CreditRefused, match=r"^That would leave less than nothing"):
            taken_back(invoice, alone)

    note = taken_back(invoice, *lines.values())

    assert note.due == 6500 + 8500 - 10000


def test_credit_notes_that_do_not_add_up_alone_or_to_their_invoice_are_undone(monkeypatch):
    invoice, _ = with_a_discount()
    with pytest.raises(CreditRefused, match=r"would not add up to it\. Nothing was issued\.$"):
        taken_back(invoice)
    monkeypatch.setattr(credit_notes, "broken_rules", lambda totals, tax_within: ("BR-CO-15: a sum is off.",))

    with pytest.raises(CreditRefused, match="was not issued: BR-CO-15"):
        taken_back(invoice)

    assert (invoice.credit_notes.count(), InvoiceSeries.objects.get(prefix="CRN").last) == (1, 1)
