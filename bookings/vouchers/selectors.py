"""What is left on gift vouchers, and who may still use them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, TypedDict

from django.db.models import F, OuterRef, Q, QuerySet, Subquery, Sum
from django.db.models.functions import Coalesce

from bookings.common.codes import plain_code
from bookings.money import Money, VoucherFacts, VoucherState, voucher_state
from bookings.orders.models import Order
from bookings.payments.models import Payment
from bookings.vouchers.models import Voucher

MOST_SHOWN = 100


class Sums(TypedDict):
    """What the ledger holds of a voucher, in minor units."""

    sum_paid: int
    sum_used: int


if TYPE_CHECKING:
    from django_stubs_ext import WithAnnotations

    Summed = WithAnnotations[Voucher, Sums]


@dataclass(frozen=True, slots=True)
class VoucherRow:
    """A voucher with what is known of its money and what it is good for today."""

    voucher: Voucher
    facts: VoucherFacts
    state: VoucherState


@dataclass(frozen=True, slots=True)
class Liability:
    """What vouchers of one currency still promise, and what was left on those that have run out; minor units."""

    currency: str
    left: Money
    run_out: Money


@dataclass(frozen=True, slots=True)
class VoucherPart:
    """What a voucher has paid of one order, what was given back taken off; minor units."""

    voucher: Voucher
    paid: Money


def facts_of(voucher: Voucher) -> VoucherFacts:
    """What a voucher is worth, was paid and has paid, worked out anew from the ledger."""
    paid = voucher.money.aggregate(sum=Sum("amount"))["sum"] or 0
    used = voucher.uses.aggregate(sum=Sum("amount"))["sum"] or 0
    return _facts(voucher, paid, used)


def is_paid(voucher: Voucher) -> bool:
    """Whether a voucher is paid for in full and was not withdrawn."""
    facts = facts_of(voucher)
    return not facts.withdrawn and facts.owed <= 0


def row_of(voucher: Voucher, *, on: date) -> VoucherRow:
    """A voucher as it stands on a day."""
    facts = facts_of(voucher)
    return VoucherRow(voucher, facts, voucher_state(facts, on))


def listed(*, words: str, on: date) -> list[VoucherRow]:
    """The newest vouchers, or those whose code, buyer or receiver match the words; one query."""
    found = _with_sums()
    if words:
        # As it is read aloud, or as the reference that was given with the money.
        code = plain_code(words.upper().removeprefix("V-"))
        matching = Q(buyer_name__icontains=words) | Q(buyer_email__icontains=words)
        matching |= Q(for_name__icontains=words)
        found = found.filter(matching | Q(code__contains=code) if code else matching)
    return [_row(voucher, on) for voucher in found[:MOST_SHOWN]]


def liabilities(*, on: date) -> list[Liability]:
    """What all vouchers that are paid for still promise on a day, by currency; one query."""
    ended = Q(last_day__lt=on)
    counted = _with_sums().filter(withdrawn_at=None, sum_paid__gte=F("amount"))
    left = F("amount") - F("sum_used")
    sums = counted.order_by("currency").values("currency")
    sums = sums.annotate(left=Sum(left, filter=~ended), run_out=Sum(left, filter=ended))
    return [Liability(each["currency"], each["left"] or 0, each["run_out"] or 0) for each in sums]


def parts_of(order: Order) -> list[VoucherPart]:
    """The vouchers that have paid for an order, with what each has paid of it; one query."""
    payments = order.payments.filter(with_voucher__isnull=False).select_related("with_voucher")
    return _parts(payments)


def _parts(payments: Iterable[Payment]) -> list[VoucherPart]:
    vouchers: dict[int, Voucher] = {}
    sums: dict[int, int] = {}
    for payment in payments:
        if (voucher := payment.with_voucher) is not None:
            vouchers[voucher.pk] = voucher
            sums[voucher.pk] = sums.get(voucher.pk, 0) + payment.amount
    return [VoucherPart(vouchers[pk], paid) for pk, paid in sums.items() if paid > 0]


def _with_sums() -> "QuerySet[Summed]":
    """Vouchers with their sums from the ledger. Two plain joins would count each payment as often as there are uses."""

    def summed(which: str) -> Coalesce:
        mine = Payment.objects.filter(**{which: OuterRef("pk")}).order_by().values(which)
        return Coalesce(Subquery(mine.annotate(sum=Sum("amount")).values("sum")), 0)

    return Voucher.objects.annotate(sum_paid=summed("for_voucher"), sum_used=summed("with_voucher"))


def _row(voucher: "Summed", on: date) -> VoucherRow:
    facts = _facts(voucher, voucher.sum_paid, voucher.sum_used)
    return VoucherRow(voucher, facts, voucher_state(facts, on))


def _facts(voucher: Voucher, paid: Money, used: Money) -> VoucherFacts:
    return VoucherFacts(
        amount=voucher.amount,
        paid=paid,
        used=used,
        last_day=voucher.last_day,
        withdrawn=voucher.withdrawn_at is not None,
    )
