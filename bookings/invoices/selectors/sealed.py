"""Invoices that are shut away because who they were made out to was forgotten."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Prefetch, QuerySet
from django.utils.translation import gettext as _

from bookings.errors import ShutAway
from bookings.invoices.models import Invoice, KeptLook
from bookings.orders.models import Order
from bookings.studio.models import Studio

LAST_OF_THE_YEAR = (12, 31)


@dataclass(frozen=True, slots=True)
class SealedPaper:
    """One paper that is shut away, until when the law wants it, and who looked at it since."""

    invoice: Invoice
    until: date
    looks: Sequence[KeptLook]


def shut_away() -> QuerySet[Invoice]:
    """Every invoice and credit note of somebody who was forgotten."""
    return Invoice.objects.filter(order__client__erased_at__isnull=False)


def is_shut_away(order: Order) -> bool:
    """Whether the papers of an order are shut away."""
    return order.client is not None and order.client.erased_at is not None


def refuse_shut_away(invoice: Invoice) -> None:
    """ShutAway for a paper that no page of daily work shows."""
    if is_shut_away(invoice.order):
        raise ShutAway(
            _("{label} is shut away. Open it under Books, Kept by law, and say why.").format(
                label=invoice.label
            )
        )


def sealed_papers(studio: Studio) -> list[SealedPaper]:
    """Every paper that is shut away, oldest first; three queries for any number. The list names nobody."""
    looks = Prefetch("looks", KeptLook.objects.select_related("by"))
    found = shut_away().select_related("series", "order").prefetch_related(looks)
    return [
        SealedPaper(invoice=each, until=kept_until(each, studio), looks=list(each.looks.all()))
        for each in found.order_by("issued_on", "pk")
    ]


def kept_until(invoice: Invoice, studio: Studio) -> date:
    """The last day on which the law wants a paper: the end of the year it was issued in, so many years on."""
    return date(invoice.issued_on.year + studio.invoice_years, *LAST_OF_THE_YEAR)
