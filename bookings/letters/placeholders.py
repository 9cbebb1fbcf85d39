"""What each letter can say in the studio's own words: a closed list for each kind, and the text behind each name."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bookings.common import formats
from bookings.orders.models import CancelCause
from bookings.outbox.models import NoticeKind

Context = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Placeholder:
    """What a name stands for, said to the photographer, and where its text comes from."""

    means: Any
    text: Callable[[Context], str]


@dataclass(frozen=True, slots=True)
class Letter:
    """The names a kind of letter knows, and those without which its text would be of no use."""

    known: tuple[str, ...]
    needed: tuple[str, ...] = field(default=())


def values(kind: NoticeKind, words: Context) -> dict[str, str]:
    """The text of every name that a kind knows, from the words of one letter."""
    return {name: PLACEHOLDERS[name].text(words) for name in LETTERS[kind].known}


def _word(name: str) -> Callable[[Context], str]:
    return lambda words: str(words.get(name, ""))


def _sum(name: str) -> Callable[[Context], str]:
    """An amount, which is written out where it is nothing: a sentence around it was written for any amount."""

    def text(words: Context) -> str:
        return str(words.get(name) or formats.amount(0, words["order"].currency, words["studio"].locale))

    return text


def _items(name: str) -> Callable[[Context], str]:
    return lambda words: "\n".join(f"- {each}" for each in words.get(name, ()))


def _ordered(words: Context) -> str:
    return "; ".join(f"{count} × {text}" for count, text in words.get("lines", ()))


def _news(words: Context) -> str:
    """What a confirmation or a cancellation tells, which has more than one form."""
    order = words["order"]
    if order.cancelled_at is not None:
        return CANCELLED_BY.get(order.cancel_cause, CANCELLED_BY[CancelCause.CLIENT])()
    if words.get("moved"):
        return _("Your sitting has a new time. The old one no longer holds.")
    return _("Your sitting is confirmed.")


CANCELLED_BY: dict[str, Callable[[], str]] = {
    CancelCause.NO_PLATE: lambda: _(
        "No plate could be made at your sitting that is fit to be handed over, so it is cancelled."
    ),
    CancelCause.STUDIO: lambda: _("The studio had to cancel your sitting. We are sorry."),
    CancelCause.CLIENT: lambda: _("Your sitting is cancelled, and its place has gone back to the diary."),
}

PLACEHOLDERS: dict[str, Placeholder] = {
    "client": Placeholder(gettext_lazy("name of the client"), _word("name")),
    "studio": Placeholder(gettext_lazy("name of the studio"), lambda words: str(words["studio"].name)),
    "phone": Placeholder(gettext_lazy("telephone of the studio"), lambda words: str(words["studio"].phone)),
    "how_to_pay": Placeholder(
        gettext_lazy("how to pay, as entered in set-up"), lambda words: str(words["studio"].how_to_pay)
    ),
    "account": Placeholder(gettext_lazy("bank account"), lambda words: str(words["studio"].account)),
    "day": Placeholder(gettext_lazy("date of the sitting"), _word("date")),
    "time": Placeholder(gettext_lazy("time of the sitting"), _word("clock")),
    "when": Placeholder(gettext_lazy("date, time and clock of the sitting"), _word("when")),
    "venue": Placeholder(gettext_lazy("place of the sitting"), _word("place")),
    "finding_it": Placeholder(
        gettext_lazy("how to find the door"), lambda words: str(words["venue"].finding_it)
    ),
    "ordered": Placeholder(gettext_lazy("what was ordered"), _ordered),
    "reference": Placeholder(
        gettext_lazy("reference of the order"), lambda words: str(words["order"].reference)
    ),
    "link": Placeholder(gettext_lazy("the page that the letter leads to"), _word("link")),
    "news": Placeholder(gettext_lazy("one sentence: what has happened"), _news),
    "deposit": Placeholder(gettext_lazy("deposit still to pay"), _sum("deposit_owed")),
    "held_until": Placeholder(gettext_lazy("until when the place is held"), _word("held_until")),
    "total": Placeholder(gettext_lazy("price of the whole order"), _sum("total")),
    "paid": Placeholder(gettext_lazy("what was paid so far"), _sum("paid")),
    "owed": Placeholder(gettext_lazy("what is still to pay"), _sum("owed")),
    "kept": Placeholder(gettext_lazy("what stays with the studio"), _sum("kept")),
    "returned": Placeholder(gettext_lazy("what comes back to the client"), _sum("returned")),
    "cancelling": Placeholder(gettext_lazy("the terms of changing and cancelling"), _word("cancelling")),
    "new_time": Placeholder(gettext_lazy("when the sitting will begin now"), _word("expected")),
    "minutes": Placeholder(gettext_lazy("how many minutes later that is"), _word("later_minutes")),
    "plates": Placeholder(gettext_lazy("the plates, as a list on lines of their own"), _items("plates")),
    "ready_day": Placeholder(gettext_lazy("by when the plates are promised"), _word("ready_by")),
    "answers": Placeholder(
        gettext_lazy("what was allowed, as a list on lines of its own"), _items("said_yes")
    ),
    "number": Placeholder(gettext_lazy("number of the invoice"), _word("label")),
    "amount": Placeholder(gettext_lazy("amount of the invoice"), _word("asked")),
    "left": Placeholder(gettext_lazy("what is left to pay on it"), _sum("left")),
    "pay_by": Placeholder(gettext_lazy("until when to pay"), _word("due_on")),
    "value": Placeholder(gettext_lazy("what the voucher is worth"), _word("value")),
    "code": Placeholder(gettext_lazy("code of the voucher"), _word("code")),
    "receiver": Placeholder(gettext_lazy("whom the voucher is for"), _word("for_name")),
    "until": Placeholder(gettext_lazy("last day of the voucher"), _word("last_day")),
    "pickup_code": Placeholder(gettext_lazy("code to collect the plates with"), _word("pickup_code")),
    "carrier": Placeholder(gettext_lazy("who carries the parcel"), lambda words: words["parcel"].carrier),
    "parcel": Placeholder(gettext_lazy("number of the parcel"), lambda words: words["parcel"].number),
    "purpose": Placeholder(gettext_lazy("what the link opens"), _word("purpose")),
    "earliest": Placeholder(gettext_lazy("the first hour that was asked for"), _word("earliest")),
    "latest": Placeholder(gettext_lazy("the last hour that was asked for"), _word("latest")),
    "list": Placeholder(gettext_lazy("the page of the place on the waiting list"), _word("list_link")),
}

STUDIO = ("client", "studio", "phone")
SITTING = (*STUDIO, "day", "time", "when", "venue", "finding_it", "ordered", "reference", "link")
DEPOSIT = (*SITTING, "deposit", "held_until", "how_to_pay", "total")

LETTERS: dict[NoticeKind, Letter] = {
    NoticeKind.DEPOSIT_DUE: Letter(DEPOSIT, needed=("deposit", "held_until", "link")),
    NoticeKind.DEPOSIT_MISSING: Letter(DEPOSIT, needed=("deposit", "held_until", "link")),
    NoticeKind.CONFIRMED: Letter(
        (*SITTING, "news", "paid", "owed", "cancelling"), needed=("news", "when", "venue")
    ),
    NoticeKind.DAY_BEFORE: Letter((*SITTING, "paid", "owed", "cancelling"), needed=("when", "venue")),
    NoticeKind.NEW_TIME: Letter((*SITTING, "paid")),
    NoticeKind.LATER: Letter((*SITTING, "new_time", "minutes"), needed=("new_time",)),
    NoticeKind.CANCELLED: Letter((*SITTING, "news", "paid", "kept", "returned"), needed=("news", "when")),
    NoticeKind.IN_WASH: Letter((*SITTING, "plates", "ready_day", "owed")),
    NoticeKind.READY: Letter((*SITTING, "plates", "owed", "pickup_code")),
    NoticeKind.POSTED: Letter((*SITTING, "plates", "carrier", "parcel"), needed=("carrier", "parcel")),
    NoticeKind.NOT_COLLECTED: Letter((*SITTING, "plates", "owed", "pickup_code"), needed=("pickup_code",)),
    NoticeKind.CONSENT_REVIEW: Letter((*SITTING, "answers"), needed=("answers", "link")),
    NoticeKind.INVOICE: Letter(
        (*STUDIO, "day", "reference", "number", "amount", "left", "pay_by", "account", "how_to_pay"),
        needed=("number",),
    ),
    NoticeKind.VOUCHER: Letter((*STUDIO, "value", "code", "receiver", "until"), needed=("code",)),
    NoticeKind.WAITING: Letter((*STUDIO, "day", "venue", "earliest", "latest", "list"), needed=("list",)),
    NoticeKind.OFFER: Letter(
        (*STUDIO, "day", "when", "venue", "held_until", "ordered", "total", "link", "list"),
        needed=("when", "held_until", "link", "list"),
    ),
    NoticeKind.STEP_UP: Letter((*STUDIO, "reference", "purpose", "link"), needed=("purpose", "link")),
}
