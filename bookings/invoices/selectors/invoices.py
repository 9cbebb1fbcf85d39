"""What was invoiced and taken back of an order."""

from dataclasses import dataclass

from django.db.models import QuerySet

from bookings.invoices.einvoice import why_not
from bookings.invoices.models import DocumentKind, Invoice, InvoiceLine
from bookings.invoices.selectors.einvoices import document_of
from bookings.invoices.selectors.sealed import is_shut_away
from bookings.money import Money
from bookings.orders.models import Order
from bookings.orders.selectors.lines import quote_of


@dataclass(frozen=True, slots=True)
class IssuedPaper:
    """One invoice or credit note, and what can be done with it."""

    document: Invoice
    why_not_electronic: str  # empty where it has an electronic form
    lines_left: bool  # whether some of it can be taken back still


@dataclass(frozen=True, slots=True)
class Invoicing:
    """Where an order stands with its invoices; amounts in minor units of its currency."""

    papers: list[IssuedPaper]  # oldest first
    open: Invoice | None  # the invoice that has not been taken back in full
    charged: Money  # what the order costs now
    invoiced: Money  # what the open invoice says, less what was taken back of it
    forgotten: bool = False  # whether the papers are shut away, because the client was forgotten

    @property
    def out_of_date(self) -> bool:
        """Whether the open invoice has to be taken back, because the order costs something else by now."""
        return self.open is not None and self.charged != self.invoiced

    @property
    def to_issue(self) -> bool:
        """Whether there is something to invoice that no invoice says yet."""
        return self.open is None and self.charged > 0 and not self.forgotten


def newest_invoice(order: Order) -> Invoice | None:
    """The invoice of an order that was issued last, taken back or not."""
    invoices = order.invoices.filter(kind=DocumentKind.INVOICE).select_related("series")
    return invoices.order_by("-turn").first()


def open_invoice(order: Order) -> Invoice | None:
    """The invoice of an order that credit notes have not taken back in full, if there is one."""
    newest = newest_invoice(order)
    return newest if newest is not None and not credited(newest) else None


def fixed_by_invoice(order: Order) -> bool:
    """Whether the lines of an order are settled by an invoice that nothing was taken back of."""
    return order.invoices.filter(kind=DocumentKind.INVOICE, credit_notes=None).exists()


def creditable_lines(invoice: Invoice) -> QuerySet[InvoiceLine]:
    """The lines of an invoice that no credit note has taken back yet."""
    return invoice.lines.filter(credited_by__isnull=True)


def credited_lines(invoice: Invoice) -> QuerySet[InvoiceLine]:
    """The lines of an invoice that credit notes have taken back."""
    return invoice.lines.filter(credited_by__isnull=False)


def credited(invoice: Invoice) -> bool:
    """Whether credit notes have taken back every line of an invoice."""
    return not creditable_lines(invoice).exists()


def invoicing(order: Order) -> Invoicing:
    """The documents of an order, and whether the newest invoice still says what it costs."""
    issued = open_invoice(order)
    return Invoicing(
        papers=[] if is_shut_away(order) else [_paper(document) for document in _documents(order)],
        open=issued,
        charged=_charged(order),
        invoiced=sum(line.as_priced().gross for line in creditable_lines(issued)) if issued else 0,
        forgotten=is_shut_away(order),
    )


def _documents(order: Order) -> QuerySet[Invoice]:
    return order.invoices.select_related("order", "series", "corrects__series").order_by("id")


def _paper(document: Invoice) -> IssuedPaper:
    return IssuedPaper(
        document=document,
        why_not_electronic=" ".join(why_not(document_of(document))),
        lines_left=document.kind == DocumentKind.INVOICE and not credited(document),
    )


def _charged(order: Order) -> Money:
    """What an order costs: its lines, or what is kept of a cancelled one."""
    return quote_of(order).gross if order.cancelled_at is None else order.kept or 0
