"""Giving an invoice or a credit note its number and freezing it, in the transaction of whoever issues it."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import Any

from django.db.models import F, Max

from bookings.invoices.models import Invoice, InvoiceLine, InvoiceSeries
from bookings.money import InvoiceTotals, TaxGroup


def freeze(
    *,
    prefix: str,
    on: date,
    totals: InvoiceTotals,
    reasons: Mapping[str, str],
    facts: Mapping[str, Any],
    due_after: timedelta | None = None,
    credited: Sequence[InvoiceLine] | None = None,
) -> Invoice:
    """Write down a document under the next number of its series and year.

    `reasons` say why a tax category is exempt, `facts` are the other fields of the row, `due_after` is how long after
    the issue it is to be paid, `credited` are the lines that those of a credit note take back, one each.
    """
    series = _next_number(prefix, on.year)
    issued_on = _not_before_the_last(series, on)
    document = Invoice.objects.create(
        series=series,
        number=series.last,
        issued_on=issued_on,
        due_on=None if due_after is None else issued_on + due_after,
        currency=totals.currency,
        net=totals.total_without_tax,
        tax=totals.total_tax,
        total=totals.total_with_tax,
        prepaid=totals.prepaid,
        rounding=totals.rounding,
        due=totals.due,
        breakdown=[_tax(group, reasons) for group in totals.tax_groups],
        **facts,
    )
    _freeze_lines(document, totals, credited or [None] * len(totals.lines))
    return document


def _next_number(prefix: str, year: int) -> InvoiceSeries:
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


def _tax(group: TaxGroup, reasons: Mapping[str, str]) -> dict[str, str | int]:
    tax: dict[str, str | int] = {
        "category": group.tax_category,
        "rate_bp": group.rate_bp,
        "taxable": group.taxable,
        "tax": group.tax,
    }
    reason = reasons.get(group.tax_category, "")
    return tax | {"reason": reason} if reason else tax


def _freeze_lines(document: Invoice, totals: InvoiceTotals, credited: Sequence[InvoiceLine | None]) -> None:
    InvoiceLine.objects.bulk_create(
        InvoiceLine(
            invoice=document,
            position=position,
            text=line.priced.text,
            quantity=line.priced.quantity,
            unit_amount=line.priced.unit_gross,
            net=line.net,
            tax_category=line.priced.tax_category,
            tax_rate_bp=line.priced.rate_bp,
            credits=taken_back,
        )
        for position, (line, taken_back) in enumerate(zip(totals.lines, credited, strict=True), start=1)
    )
