"""What a sitting will cost, what is asked for now and what later."""

from collections.abc import Sequence
from dataclasses import dataclass

from bookings.money.amounts import WHOLE_BP, Money, MoneyValueError, require_currency, require_whole, share_of
from bookings.money.lines import PricedLine, TaxGroup, tax_groups


@dataclass(frozen=True, slots=True)
class DepositRule:
    """How much is asked for at once: a share in basis points, or a fixed amount in minor units.

    Exactly one of the two is given; 0 asks for nothing. Raises MoneyValueError.
    """

    share_bp: int | None = None
    fixed: Money | None = None

    def __post_init__(self) -> None:
        if (self.share_bp is None) == (self.fixed is None):
            raise MoneyValueError("A deposit is either a share or a fixed amount: give exactly one.")
        if self.share_bp is not None:
            require_whole("The deposit share in basis points", self.share_bp, least=0, most=WHOLE_BP)
        if self.fixed is not None:
            require_whole("The fixed deposit", self.fixed, least=0)

    def of(self, gross: Money) -> Money:
        """Return the deposit on `gross` (0 or more), never more than `gross` itself."""
        require_whole("gross", gross, least=0)
        if self.share_bp is not None:
            return share_of(gross, self.share_bp)
        return min(self.fixed or 0, gross)


@dataclass(frozen=True, slots=True)
class Quote:
    """An offer in `currency`: `gross` is tax-included and falls due in two parts.

    Raises MoneyValueError when the parts do not add up or the whole is below 0.
    """

    lines: tuple[PricedLine, ...]
    currency: str
    gross: Money
    tax_by_rate: tuple[TaxGroup, ...]
    deposit_now: Money
    balance_later: Money

    def __post_init__(self) -> None:
        require_currency(self.currency)
        if not self.lines:
            raise MoneyValueError("A quote needs at least one line.")
        require_whole("The total of a quote", self.gross, least=0)
        if self.gross != sum(line.gross for line in self.lines):
            raise MoneyValueError("The total of a quote must be the sum of its lines.")
        require_whole("The deposit", self.deposit_now, least=0, most=self.gross)
        if self.balance_later != self.gross - self.deposit_now:
            raise MoneyValueError("Deposit and balance must add up to the total of the quote.")


def quote(lines: Sequence[PricedLine], currency: str, rule: DepositRule) -> Quote:
    """Price `lines` in `currency` and part the total into deposit and balance.

    Raises MoneyValueError when there is no line or the lines add up to less than 0.
    """
    gross = sum(line.gross for line in lines)
    require_whole("The total of a quote", gross, least=0)
    deposit = rule.of(gross)
    return Quote(
        lines=tuple(lines),
        currency=currency,
        gross=gross,
        tax_by_rate=tax_groups(lines),
        deposit_now=deposit,
        balance_later=gross - deposit,
    )
