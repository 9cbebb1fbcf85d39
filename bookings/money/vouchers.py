"""How long a gift voucher can be used, and how much can be taken from it."""

from calendar import monthrange
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from bookings.money.amounts import Money, require_whole

MONTHS = 12


class VoucherState(StrEnum):
    """What can be done with a voucher on a day."""

    UNPAID = "unpaid"  # not paid for in full: it does not count yet
    USABLE = "usable"
    USED_UP = "used_up"
    RUN_OUT = "run_out"  # something is left on it, but its last day has passed
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True)
class VoucherFacts:
    """A voucher as the ledger knows it, in minor units: what it is worth, what was paid for it, what was taken from it.

    `last_day` is the last one on which it can be used, None without end. Raises MoneyValueError.
    """

    amount: Money
    paid: Money
    used: Money
    last_day: date | None = None
    withdrawn: bool = False

    def __post_init__(self) -> None:
        require_whole("The worth of a voucher", self.amount, least=1)
        require_whole("What was paid for a voucher", self.paid)
        require_whole("What was taken from a voucher", self.used, least=0, most=self.amount)

    @property
    def left(self) -> Money:
        return self.amount - self.used

    @property
    def owed(self) -> Money:
        """What is still to be paid for it; below 0 what is to be given back, all of it once it was withdrawn."""
        return (0 if self.withdrawn else self.amount) - self.paid

    @property
    def to_return(self) -> Money:
        """What was paid for it and is to be given back."""
        return max(0, -self.owed)


def last_day(asked_on: date, months: int | None) -> date | None:
    """Return the day so many months on, or the last one of a month too short for it; None without end.

    Raises MoneyValueError for less than one month.
    """
    if months is None:
        return None
    require_whole("The months of a voucher", months, least=1)
    years, month = divmod(asked_on.month - 1 + months, MONTHS)
    year = asked_on.year + years
    return date(year, month + 1, min(asked_on.day, monthrange(year, month + 1)[1]))


def voucher_state(facts: VoucherFacts, on: date) -> VoucherState:
    """Return what can be done with a voucher on a day; its last day still counts."""
    if facts.withdrawn:
        return VoucherState.WITHDRAWN
    if facts.paid < facts.amount:
        return VoucherState.UNPAID
    if not facts.left:
        return VoucherState.USED_UP
    if facts.last_day is not None and on > facts.last_day:
        return VoucherState.RUN_OUT
    return VoucherState.USABLE


def to_take(facts: VoucherFacts, owed: Money, on: date) -> Money:
    """Return how much of what is `owed` a voucher pays on a day: what is left on it, and never more than is owed."""
    require_whole("What is owed", owed)
    if voucher_state(facts, on) is not VoucherState.USABLE:
        return 0
    return max(0, min(facts.left, owed))
