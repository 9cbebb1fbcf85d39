"""What needs the owner's eye."""

from dataclasses import dataclass, field, fields, replace
from datetime import datetime, timedelta

from django.db.models import Exists, F, OuterRef, Q, QuerySet, Subquery, Sum
from django.db.models.functions import Coalesce

from bookings.cards.models import CardNotice
from bookings.cards.selectors import to_be_looked_at
from bookings.invoices.selectors import status as books
from bookings.money import Money
from bookings.orders.models import Order, OrderLine
from bookings.orders.selectors.account import account
from bookings.outbox.models import MailAway, Notice
from bookings.payments.models import Payment
from bookings.studio.models import Studio

# A mail server that is started anew is no trouble.
AWAY_FOR = timedelta(minutes=5)


@dataclass(frozen=True, slots=True)
class Troubles:
    """Letters that could not be sent, a mail server that takes none, paid orders whose place was gone when the money
    came, money that is to be given back, overdue invoices, what the card service told that does not add up, and
    promised dates that are at risk.
    """

    unsent: list[Notice] = field(default_factory=list)
    unsent_vouchers: list[Notice] = field(default_factory=list)
    unsent_waiting: list[Notice] = field(default_factory=list)
    without_a_place: list[Order] = field(default_factory=list)
    to_give_back: list[tuple[Order, Money]] = field(default_factory=list)
    cards: list[CardNotice] = field(default_factory=list)
    overdue: list[books.InvoiceStatus] = field(default_factory=list)
    mail_away: MailAway | None = None
    late_promises: list[Order] = field(default_factory=list)

    def __bool__(self) -> bool:
        return any(getattr(self, each.name) for each in fields(self))


def open_troubles(*, now: datetime) -> Troubles:
    """One query where there is no trouble, one or a few more for each kind that there is."""
    letters, cards, too_much, late, away, promised = (
        _letters(),
        to_be_looked_at(),
        _paid_too_much(),
        books.may_be_overdue(now=now),
        MailAway.objects.filter(Exists(Notice.objects.due(now)), since__lte=now - AWAY_FOR),
        _late_promises(),
    )
    each = [Exists(kind) for kind in (letters, cards, too_much, late, away, promised)]
    nothing = (False,) * len(each)
    lettered, carded, overpaid, owed, no_mail, risky = Studio.objects.values_list(*each).first() or nothing
    found = (
        letters.select_related("order__client", "voucher", "waiting").order_by("order_id", "id")
        if lettered
        else ()
    )
    told = _notified(list(found), list(cards) if carded else [])
    return replace(
        told,
        to_give_back=to_give_back() if overpaid else [],
        overdue=books.overdue(orders=late, now=now) if owed else [],
        mail_away=away.first() if no_mail else None,
        late_promises=list(promised) if risky else [],
    )


def _late_promises() -> QuerySet[Order]:
    """As the drain has found them."""
    return Order.objects.filter(at_risk_since__isnull=False, cancelled_at=None).order_by("promised_on", "pk")


def _letters() -> QuerySet[Notice]:
    """Those given up, and those of orders without a place: both are written in one transaction with their letter."""
    waits = Q(order__needs_new_time=True, order__cancelled_at__isnull=True)
    lost = Q(given_up_at__isnull=False, sent_at__isnull=True, withdrawn_at__isnull=True)
    return Notice.objects.filter(waits | lost)


def _notified(letters: list[Notice], cards: list[CardNotice]) -> Troubles:
    unsent = [letter for letter in letters if letter.given_up_at is not None and letter.sent_at is None]
    orders = {letter.order_id: letter.order for letter in letters if letter.order is not None}
    return Troubles(
        unsent=[letter for letter in unsent if letter.order is not None],
        unsent_vouchers=[letter for letter in unsent if letter.voucher is not None],
        unsent_waiting=[letter for letter in unsent if letter.waiting is not None],
        without_a_place=[
            order for order in orders.values() if order.needs_new_time and order.cancelled_at is None
        ],
        cards=cards,
    )


def to_give_back() -> list[tuple[Order, Money]]:
    """The orders that were paid more than they cost, with what is too much; oldest first."""
    orders = _paid_too_much().select_related("terms", "sitting__bench_job")
    found = orders.prefetch_related("lines", "payments").order_by("pk")
    owing = [(order, account(order).overpaid) for order in found]
    return [(order, overpaid) for order, overpaid in owing if overpaid]


def _paid_too_much() -> QuerySet[Order]:
    """Found by the database; where what is kept was never fixed, the rule still has to be asked."""
    of_order = {"order": OuterRef("pk")}
    paid = Payment.objects.filter(**of_order).values("order").annotate(sum=Sum("amount"))
    lines = OrderLine.objects.filter(**of_order).values("order")
    costs = lines.annotate(sum=Sum(F("quantity") * F("unit_amount")))
    orders = Order.objects.annotate(paid=Subquery(paid.values("sum")))
    cancelled = Q(cancelled_at__isnull=False, paid__gt=Coalesce(F("kept"), 0))
    return orders.filter(cancelled | Q(cancelled_at__isnull=True, paid__gt=Subquery(costs.values("sum"))))
