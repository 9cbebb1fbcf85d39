"""One priced line with tax included, and the tax its kind and rate add up to.

Terms are those of EN 16931 (BT-.. one value, BG-.. a group of values, BR-.. a rule); the wording
was read in public copies of its validation rules, not in the standard itself.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from bookings.money.amounts import WHOLE_BP, Money, MoneyValueError, half_up, require_whole, share_of

# Least and greatest rate of each kind of tax a consumer can be charged here: standard (any rate
# above 0, also a reduced one), zero-rated, exempt. BR-S-05, BR-Z-05, BR-E-05.
RATE_LIMITS = {"S": (1, WHOLE_BP), "Z": (0, 0), "E": (0, 0)}


def require_tax(tax_category: object, rate_bp: object) -> None:
    """Raise MoneyValueError unless the category is S, Z or E and the rate fits it."""
    if not isinstance(tax_category, str) or tax_category not in RATE_LIMITS:
        raise MoneyValueError(f"The tax category must be one of S, Z, E, got {tax_category!r}.")
    least, most = RATE_LIMITS[tax_category]
    require_whole(f"The rate in basis points of tax category {tax_category}", rate_bp, least=least, most=most)


@dataclass(frozen=True, slots=True)
class PricedLine:
    """Something sold or credited: `quantity` times `unit_gross` minor units, tax included.

    A credit has a negative quantity, never a negative price (BR-27). Raises MoneyValueError.
    """

    text: str
    quantity: int  # BT-129
    unit_gross: Money
    tax_category: str  # BT-151
    rate_bp: int  # BT-152

    def __post_init__(self) -> None:
        if not self.text.strip():
            raise MoneyValueError("A line needs a text that says what it is for.")
        require_whole("quantity", self.quantity)
        if self.quantity == 0:
            raise MoneyValueError("The quantity of a line must not be 0.")
        require_whole("The unit price", self.unit_gross, least=0)
        require_tax(self.tax_category, self.rate_bp)

    @property
    def gross(self) -> Money:
        """What the line costs, tax included."""
        return self.quantity * self.unit_gross

    @property
    def net(self) -> Money:
        """The line without tax, rounded once for the whole line (BT-131)."""
        return half_up(self.gross * WHOLE_BP, WHOLE_BP + self.rate_bp)

    def credited(self) -> "PricedLine":
        """Return the line that takes this one back to the last minor unit."""
        return replace(self, quantity=-self.quantity)


@dataclass(frozen=True, slots=True)
class TaxGroup:
    """The tax on all lines of one category and rate (BG-23). Raises MoneyValueError."""

    tax_category: str  # BT-118
    rate_bp: int  # BT-119
    taxable: Money  # BT-116
    tax: Money  # BT-117

    def __post_init__(self) -> None:
        require_tax(self.tax_category, self.rate_bp)
        require_whole("taxable", self.taxable)
        require_whole("tax", self.tax)


def tax_groups(lines: Iterable[PricedLine]) -> tuple[TaxGroup, ...]:
    """Return one group a category and rate, in that order; the tax is rounded once a group."""
    taxable: dict[tuple[str, int], Money] = {}
    for line in lines:
        kind = (line.tax_category, line.rate_bp)
        taxable[kind] = taxable.get(kind, 0) + line.net
    return tuple(
        TaxGroup(tax_category, rate_bp, amount, share_of(amount, rate_bp))
        for (tax_category, rate_bp), amount in sorted(taxable.items())
    )
