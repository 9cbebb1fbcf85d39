"""Issuing invoices: numbered without gaps in the issuing transaction, then frozen."""

from datetime import date, datetime, timedelta

from django.db import transaction
from django.db.models import F, Max

from bookings.errors import InvoiceRefused, NotPlaced
from bookings.models import Invoice, InvoiceLine, InvoiceSeries, Order, Studio
from bookings.money import InvoiceTotals, broken_rules, invoice_totals
from bookings.selectors.orders import account
from bookings.selectors.prices import the_studio


@transaction.atomic
def issue(*, order_id: int, now: datetime) -> Invoice:
    """Issue the invoice of an order; a second call returns the same one. NotPlaced or InvoiceRefused."""
    order = Order.objects.select_for_update(of=("self",)).select_related("terms").get(pk=order_id)
    if before := Invoice.objects.filter(order=order).first():
        return before
    if order.placed_at is None or order.client is None:
        raise NotPlaced("Nobody has put a name to this order yet, so it cannot be invoiced.")
    if order.cancelled_at is not None:
        raise InvoiceRefused("This order was cancelled; there is nothing to invoice.")
    studio = the_studio()
    day = order.sitting.day
    totals = _sound_totals(order)
    series = _locked_series(studio.invoice_series, day.local(now).year)
    issued_on = _not_before_the_last(series, day.local(now).date())
    invoice = Invoice.objects.create(
        series=series,
        number=series.last,
        order=order,
        issued_on=issued_on,
        supplied_on=day.bench_day.on,
        due_on=issued_on + timedelta(days=studio.payment_days),
        currency=totals.currency,
        seller=_seller(studio),
        buyer={"name": order.client.name, "email": order.client.email},
        net=totals.total_without_tax,
        tax=totals.total_tax,
        total=totals.total_with_tax,
        prepaid=totals.prepaid,
        rounding=totals.rounding,
        due=totals.due,
        breakdown=_breakdown(totals),
    )
    _freeze_lines(invoice, totals)
    return invoice


def _locked_series(prefix: str, year: int) -> InvoiceSeries:
    """Give out the next number. The row stays locked until the issue is committed or rolled back: no gap."""
    series, _ = InvoiceSeries.objects.get_or_create(prefix=prefix, year=year)
    InvoiceSeries.objects.filter(pk=series.pk).update(last=F("last") + 1)
    series.refresh_from_db()
    return series


def _not_before_the_last(series: InvoiceSeries, today: date) -> date:
    """The date of the next number: today, but never before that of a lower number.

    Who waited for the counter over midnight, or sits in a zone where it is still yesterday, would date it back.
    """
    last = series.invoices.aggregate(on=Max("issued_on"))["on"]
    return max(today, last) if last else today


def _seller(studio: Studio) -> dict[str, str]:
    return {
        "name": studio.name,
        "address": studio.address,
        "country": studio.country,
        "tax_number": studio.tax_number,
        "email": studio.email,
    }


def _breakdown(totals: InvoiceTotals) -> list[dict[str, str | int]]:
    return [
        {"category": group.tax_category, "rate_bp": group.rate_bp, "taxable": group.taxable, "tax": group.tax}
        for group in totals.tax_groups
    ]


def _freeze_lines(invoice: Invoice, totals: InvoiceTotals) -> None:
    InvoiceLine.objects.bulk_create(
        InvoiceLine(
            invoice=invoice,
            position=position,
            text=line.priced.text,
            quantity=line.priced.quantity,
            unit_amount=line.priced.unit_gross,
            net=line.net,
            tax_category=line.priced.tax_category,
            tax_rate_bp=line.priced.rate_bp,
        )
        for position, line in enumerate(totals.lines, start=1)
    )


def _sound_totals(order: Order) -> InvoiceTotals:
    """The totals, with a second opinion: an invoice that does not add up is never numbered."""
    totals = invoice_totals(order.priced_lines(), order.currency, account(order).paid)
    if broken := broken_rules(totals):
        raise InvoiceRefused("This invoice does not add up and was not issued: " + " ".join(broken))
    return totals
