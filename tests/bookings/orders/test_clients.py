"""Whom an invoice is made out to."""

import pytest

from bookings.errors import NotPlaced
from bookings.invoices.models import Invoice
from bookings.invoices.services import issuing as invoices
from bookings.orders.models import Client
from bookings.orders.services import clients as people
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db
COMPANY = people.MadeOutTo("Nets and Lines Lda", "Quay 3\nSaltmarrow", "PT", "PT111111110")


def test_whom_an_invoice_is_made_out_to_is_noted_and_taken_back():
    order = builders.a_placed_order(builders.a_day())
    people.make_out_to(order_id=order.pk, to=COMPANY)
    noted = Client.objects.get().company

    people.make_out_to(order_id=order.pk, to=people.MadeOutTo())

    assert (noted, Client.objects.get().company) == ("Nets and Lines Lda", "")
    assert Client.objects.get().name == "Ines Madrugada"


def test_what_is_issued_already_stays_as_it_is():
    order = builders.a_paid_order(builders.a_day())
    invoices.issue(order_id=order.pk, now=NOW)

    people.make_out_to(order_id=order.pk, to=COMPANY)

    assert Invoice.objects.get().buyer["company"] == ""


def test_an_order_without_a_name_is_made_out_to_nobody():
    order = builders.a_held_order(builders.a_day())

    with pytest.raises(
        NotPlaced, match=r"^Nobody has put a name to this order yet, so it cannot be invoiced\.$"
    ):
        people.make_out_to(order_id=order.pk, to=COMPANY)
