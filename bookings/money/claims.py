"""What is left of several claims for which money came together: the oldest is paid first."""

from collections.abc import Sequence
from dataclasses import dataclass

from bookings.money.amounts import Money, require_whole


@dataclass(frozen=True, slots=True)
class Claim:
    """What one invoice asks for in whole, and what credit notes have taken back of it, in minor units."""

    asked: Money
    credited: Money = 0

    def __post_init__(self) -> None:
        require_whole("asked", self.asked)
        require_whole("credited", self.credited)

    @property
    def outstanding(self) -> Money:
        return self.asked - self.credited


def left_of(claims: Sequence[Claim], paid: Money) -> tuple[Money, ...]:
    """Return what is left of each claim, given oldest first, once `paid` has come for all of them.

    More money than all ask for leaves nothing of any; more given back than came is owed on the oldest.
    Raises MoneyValueError when `paid` is not whole.
    """
    require_whole("paid", paid)
    left = []
    for claim in claims:
        taken = min(paid, claim.outstanding)
        left.append(claim.outstanding - taken)
        paid -= taken
    return tuple(left)
