"""What a discount takes off, and how it is spread over prices that are taxed differently."""

from collections.abc import Sequence
from dataclasses import dataclass

from bookings.money.amounts import WHOLE_BP, Money, MoneyValueError, require_whole, share_of, split


@dataclass(frozen=True, slots=True)
class DiscountRule:
    """A share of the whole in basis points, or a fixed amount off it in minor units; tax included.

    Exactly one of the two is given. Raises MoneyValueError.
    """

    share_bp: int | None = None
    fixed: Money | None = None

    def __post_init__(self) -> None:
        if (self.share_bp is None) == (self.fixed is None):
            raise MoneyValueError("A discount is either a share or a fixed amount: give exactly one.")
        if self.share_bp is not None:
            require_whole("The discount in basis points", self.share_bp, least=0, most=WHOLE_BP)
        if self.fixed is not None:
            require_whole("The fixed discount", self.fixed, least=0)

    def of(self, gross: Money) -> Money:
        """Return what is taken off `gross` (0 or more), never more than `gross` itself."""
        require_whole("gross", gross, least=0)
        if self.share_bp is not None:
            return share_of(gross, self.share_bp)
        return min(self.fixed or 0, gross)

    def parts(self, grosses: Sequence[Money]) -> tuple[Money, ...]:
        """Return what is taken off each of `grosses`, for example one for each rate of tax.

        The parts add up to what is taken off the whole and none is more than its gross (largest remainder).
        Raises MoneyValueError for a gross below 0.
        """
        taken = self.of(sum(grosses))
        return split(taken, grosses) if taken else (0,) * len(grosses)
