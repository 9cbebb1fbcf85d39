"""Credit notes: an issued invoice is never changed, it is taken back by a document of its own."""

from collections.abc import Collection, Sequence
from datetime import datetime

from django.db import transaction
from django.db.models import Max, Sum
from django.utils.translation import gettext as _

from bookings.errors import CreditRefused
from bookings.invoices.models import DocumentKind, Invoice, InvoiceLine
from bookings.invoices.selectors.invoices import creditable_lines, credited_lines
from bookings.invoices.services import freezing as issuing
from bookings.money import InvoiceTotals, broken_rules, credit_totals
from bookings.orders.models import Order
from bookings.studio.selectors import the_studio

SUMS = ("net", "tax", "total", "rounding")


@transaction.atomic
def issue(*, invoice_id: int, reason: str, now: datetime, line_ids: Collection[int] | None = None) -> Invoice:
    """Take back lines of an invoice, all that are left when none are named. CreditRefused changes nothing."""
    invoice = Invoice.objects.select_related("series").get(pk=invoice_id)
    order = Order.objects.locked(invoice.order_id)
    lines = _chosen(invoice, line_ids, reason)
    day = order.sitting.day
    facts = {
        "kind": DocumentKind.CREDIT_NOTE,
        "corrects": invoice,
        "reason": reason.strip(),
        "order": order,
        "turn": _next_turn(order),
        "supplied_on": invoice.supplied_on,
        "seller": invoice.seller,
        "buyer": invoice.buyer,
    }
    note = issuing.freeze(
        prefix=the_studio().credit_series,
        on=day.local(now).date(),
        totals=_sound_totals(invoice, lines),
        reasons={tax["category"]: tax.get("reason", "") for tax in invoice.breakdown},
        facts=facts,
        credited=lines,
    )
    _refuse_remainder(invoice)
    return note


def _chosen(invoice: Invoice, line_ids: Collection[int] | None, reason: str) -> Sequence[InvoiceLine]:
    """The lines to take back; CreditRefused when they are none, were taken back before, or leave too little."""
    if invoice.kind != DocumentKind.INVOICE:
        raise CreditRefused(
            _("A credit note cannot be taken back. Issue a new invoice of the order instead.")
        )
    if not reason.strip():
        raise CreditRefused(_("Say why it is taken back: the reason is printed on the credit note."))
    left = list(creditable_lines(invoice))
    chosen = [line for line in left if line_ids is None or line.pk in line_ids]
    if not chosen or len(chosen) < len(set(line_ids or ())):
        raise CreditRefused(
            _("Of these lines at least one has been taken back already, or none was chosen. Look again.")
        )
    given, rest = _notify(chosen), _notify(left) - _notify(chosen)
    if given < 0 or rest < 0:
        raise CreditRefused(
            _("That would leave less than nothing. Take a discount back together with what it was given for.")
        )
    return chosen


def _notify(lines: Sequence[InvoiceLine]) -> int:
    """The prices of these lines as the client was told them, together."""
    return sum(line.quantity * line.unit_amount for line in lines)


def _next_turn(order: Order) -> int:
    latest = order.invoices.filter(kind=DocumentKind.CREDIT_NOTE).aggregate(latest=Max("turn"))["latest"]
    return (latest or 0) + 1


def _sound_totals(invoice: Invoice, lines: Sequence[InvoiceLine]) -> InvoiceTotals:
    """The totals, with a second opinion: a credit note that does not add up is never numbered."""
    before = [line.as_priced() for line in credited_lines(invoice)]
    totals = credit_totals([line.as_priced() for line in lines], before, invoice.currency)
    if broken := broken_rules(totals, tax_within=1):
        raise CreditRefused(" ".join([_("This credit note does not add up and was not issued:"), *broken]))
    return totals


def _refuse_remainder(invoice: Invoice) -> None:
    """Once every line is taken back, the credit notes add up to the invoice, or the last of them is undone."""
    if creditable_lines(invoice).exists():
        return
    credited = invoice.credit_notes.aggregate(**{name: Sum(name) for name in SUMS})
    if credited != {name: getattr(invoice, name) for name in SUMS}:
        raise CreditRefused(_("The credit notes of this invoice would not add up to it. Nothing was issued."))
