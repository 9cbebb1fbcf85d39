"""The statement of one client: all papers and all money in the order of their dates.

A client row is made for each order, so that a client is everybody who booked under one mail address.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Count, Max
from django.db.models.functions import Lower
from django.utils.translation import gettext as _

from bookings.invoices.models import DocumentKind
from bookings.invoices.selectors.status import asked_for, standings, with_papers
from bookings.money import Money
from bookings.orders.models import Client, Order

MOST_CLIENTS = 100


@dataclass(frozen=True, slots=True)
class Entry:
    """One paper or one movement of money, in minor units, and the balance after it."""

    on: date
    text: str
    order: Order
    asked: Money
    paid: Money
    balance: Money


@dataclass(frozen=True, slots=True)
class ClientAccount:
    """A client's entries in one currency. `owed`: left on invoices; `ahead`: paid without an invoice asking for it."""

    currency: str
    entries: list[Entry]
    owed: Money

    @property
    def balance(self) -> Money:
        return self.entries[-1].balance if self.entries else 0

    @property
    def ahead(self) -> Money:
        return self.owed - self.balance


@dataclass(frozen=True, slots=True)
class Statement:
    client: Client
    accounts: list[ClientAccount]


def statement(client: Client, *, now: datetime) -> Statement | None:
    """The statement of a client, told by the address; None when there is none, as after it was erased."""
    if not client.email:
        return None
    found = Order.objects.placed().filter(client__email__iexact=client.email).order_by("pk")
    orders = list(with_papers(found))
    if not orders:
        return None
    currencies = sorted({order.currency for order in orders})
    return Statement(
        client=client,
        accounts=[
            _account(currency, [order for order in orders if order.currency == currency], now)
            for currency in currencies
        ],
    )


def clients(*, words: str) -> list[tuple[Client, int]]:
    """The newest row of each client with how many orders they placed, newest first; at most MOST_CLIENTS."""
    named = Client.objects.exclude(email="").filter(orders__placed_at__isnull=False)
    if words:
        named = named.filter(email__icontains=words) | named.filter(name__icontains=words)
    each = named.order_by().values(mailbox=Lower("email")).annotate(newest=Max("pk"), booked=Count("orders"))
    newest = {row["newest"]: row["booked"] for row in each.order_by("-newest")[:MOST_CLIENTS]}
    return [(client, newest[client.pk]) for client in Client.objects.filter(pk__in=newest).order_by("-pk")]


def _account(currency: str, orders: Sequence[Order], now: datetime) -> ClientAccount:
    entries, balance = [], 0
    for on, _papers_first, _row, text, order, asked, paid in sorted(
        _moves(orders), key=lambda move: move[:3]
    ):
        balance += asked - paid
        entries.append(Entry(on=on, text=text, order=order, asked=asked, paid=paid, balance=balance))
    owed = sum(each.left for order in orders for each in standings(order, now=now))
    return ClientAccount(currency=currency, entries=entries, owed=owed)


def _moves(orders: Sequence[Order]) -> Iterator[tuple[date, int, int, str, Order, Money, Money]]:
    """Date, papers before money, number of the row, then what an entry says."""
    for order in orders:
        for paper in order.invoices.all():
            sign = -1 if paper.kind == DocumentKind.CREDIT_NOTE else 1
            text = f"{paper.get_kind_display()} {paper.label}"
            yield paper.issued_on, 0, paper.pk, text, order, sign * asked_for(paper), 0
        for payment in order.payments.all():
            way = _("Given back") if payment.amount < 0 else _("Paid")
            text = f"{way}: {payment.get_method_display()}"
            on = order.sitting.day.local(payment.at).date()
            yield on, 1, payment.pk, text, order, 0, payment.amount
