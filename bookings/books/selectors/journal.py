"""What the accountant gets of a period, as rows for a file.

Dates are those on the clock of the venue, unless a column says UTC. Amounts have a dot and as many places as the
currency has; those of credit notes, and of money given back, stand below nothing.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from bookings.books.selectors.numbers import sign_of
from bookings.common.formats import major, percent
from bookings.invoices.models import Invoice
from bookings.invoices.selectors.sealed import is_shut_away
from bookings.payments.models import Payment

Rate = tuple[str, int]
A_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Period:
    """From the first day to the last one, both counted in."""

    since: date
    until: date


def documents(*, period: Period) -> Iterator[list[object]]:
    """Every invoice and credit note of a period, a column for the net and one for the tax of each rate."""
    papers = list(
        Invoice.objects.filter(issued_on__gte=period.since, issued_on__lte=period.until)
        .select_related("series", "order__client", "corrects__series")
        .order_by("issued_on", "series__prefix", "number")
    )
    rates = sorted({_rate(group) for paper in papers for group in paper.breakdown})
    by_rate = [f"{word} {category} {percent(bp)}" for category, bp in rates for word in ("Net", "Tax")]
    yield [
        *("Number", "Kind", "Takes back", "Issued on", "Supplied on", "Due on", "Order", "Buyer"),
        *by_rate,
        *("Net", "Tax", "Total with tax", "Rounding", "To pay", "Paid before", "Currency"),
    ]
    for paper in papers:
        yield _document(paper, rates)


def payments(*, period: Period) -> Iterator[list[object]]:
    """Every movement of money of a period, oldest first."""
    yield [
        *("Date", "Clock of", "At (UTC)", "For", "Method", "Amount", "Currency", "Reference", "Note"),
    ]
    # A day wider in UTC on both sides: nowhere is it another day than in UTC by more than that.
    wide = (_midnight(period.since - A_DAY), _midnight(period.until + 2 * A_DAY))
    found = Payment.objects.filter(at__range=wide).order_by("at", "pk")
    for payment in found.select_related("order__sitting__day__venue", "for_voucher"):
        zone = _zone(payment)
        on = payment.at.astimezone(zone).date()
        if period.since <= on <= period.until:
            yield _payment(payment, on, zone)


def _document(paper: Invoice, rates: list[Rate]) -> list[object]:
    sign = sign_of(paper)
    groups = {_rate(group): group for group in paper.breakdown}

    def written(minor: int) -> object:
        return major(sign * minor, paper.currency)

    by_rate = [
        written(groups[rate][word]) if rate in groups else None
        for rate in rates
        for word in ("taxable", "tax")
    ]
    return [
        paper.label,
        paper.get_kind_display(),
        paper.corrects.label if paper.corrects else None,
        paper.issued_on,
        paper.supplied_on,
        paper.due_on,
        paper.order.reference,
        # Whoever was forgotten is not named in daily work; the paper itself is kept by law, and says it.
        "" if is_shut_away(paper.order) else paper.buyer.get("name", ""),
        *by_rate,
        written(paper.net),
        written(paper.tax),
        written(paper.total),
        written(paper.rounding),
        written(paper.total + paper.rounding),
        written(paper.prepaid),
        paper.currency,
    ]


def _payment(payment: Payment, on: date, zone: tzinfo) -> list[object]:
    # A voucher is named by the number of its row: who reads its code could use it.
    bought = payment.order or payment.for_voucher
    currency = bought.currency if bought else ""
    return [
        on,
        str(zone),
        f"{payment.at.astimezone(UTC):%Y-%m-%dT%H:%M:%SZ}",
        payment.order.reference if payment.order else f"Voucher {payment.for_voucher_id}",
        payment.get_method_display(),
        major(payment.amount, currency),
        currency,
        payment.reference,
        payment.note,
    ]


def _zone(payment: Payment) -> tzinfo:
    return payment.order.sitting.day.venue.tz if payment.order else UTC


def _rate(group: dict[str, object]) -> Rate:
    return str(group["category"]), int(str(group["rate_bp"]))


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time(), tzinfo=UTC)
