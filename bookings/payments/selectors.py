"""What should lie in the cash box, and what a day took in."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from django.db.models import Q, QuerySet, Sum

from bookings.money import Money
from bookings.payments.models import CashUp, Method, Payment


@dataclass(frozen=True, slots=True)
class CashBox:
    """The box since it was last counted, in minor units; `last` is that count, None before the first."""

    currency: str
    opened_with: Money
    came_in: Money
    last: CashUp | None

    def expected(self, put_in: Money = 0) -> Money:
        """What should lie in it; `put_in` is change put in, or with a minus sign taken out."""
        return self.opened_with + self.came_in + put_in


@dataclass(frozen=True, slots=True)
class Taking:
    """What came in and went back by one method, both above nothing."""

    method: Method
    received: Money
    returned: Money

    @property
    def together(self) -> Money:
        return self.received - self.returned


def cash_box(*, currency: str) -> CashBox:
    """What the ledger says of the cash in that currency.

    What came in is all cash there ever was, less what was counted before: a payment that was still on its way into the
    ledger during a count is so part of the next one.
    """
    counts = counts_in(currency=currency)
    in_ledger = _sum(_payments_in(currency).filter(method=Method.CASH), "amount")
    last = counts.first()
    return CashBox(
        currency=currency,
        opened_with=last.counted if last else 0,
        came_in=in_ledger - _sum(counts, "came_in"),
        last=last,
    )


def counts_in(*, currency: str) -> QuerySet[CashUp]:
    """The counts of that currency, newest first."""
    return CashUp.objects.filter(currency=currency).select_related("counted_by").order_by("-id")


def newest_cash_payment(*, currency: str) -> Payment | None:
    return _payments_in(currency).filter(method=Method.CASH).order_by("-id").first()


def takings(*, on: date, zone: tzinfo, currency: str) -> list[Taking]:
    """What each method took in and gave back on a date by the clock of `zone`; methods without any are left out."""
    begins, ends = (
        datetime.combine(day, time(), tzinfo=zone).astimezone(UTC) for day in (on, on + timedelta(days=1))
    )
    found = _payments_in(currency).filter(at__gte=begins, at__lt=ends).order_by()
    rows = found.values("method").annotate(
        received=Sum("amount", filter=Q(amount__gt=0), default=0),
        returned=Sum("amount", filter=Q(amount__lt=0), default=0),
    )
    known = {row["method"]: Taking(Method(row["method"]), row["received"], -row["returned"]) for row in rows}
    return [known[method] for method in Method.values if method in known]


def together(taken: Sequence[Taking]) -> Money:
    """What came in by all methods; a voucher that was used is money of an earlier day, so it is left out."""
    return sum(each.together for each in taken if each.method != Method.VOUCHER)


def _payments_in(currency: str) -> QuerySet[Payment]:
    return Payment.objects.filter(Q(order__currency=currency) | Q(for_voucher__currency=currency))


def _sum(rows: "QuerySet[Payment] | QuerySet[CashUp]", field: str) -> Money:
    return int(rows.order_by().aggregate(sum=Sum(field, default=0))["sum"])
