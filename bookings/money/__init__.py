"""PURE: quotes, deposits, discounts, cancellations, vouchers and invoice totals, in whole minor units of a currency.

`amounts` rounds and splits, `lines` and `quotes` price, `invoices` and `credits` total by EN 16931, `cancellation`
says what is retained, `vouchers` what can be used, `claims` which of several claims a sum pays, `validation` is a
second opinion.

Rules
- Integers only. Rounding is half up, per line first, then exact sums; splits by largest remainder.
- Values that do not add up are refused when they are made.

Decisions
- 2026-11-26: a discount is counted off the whole and split by tax class, as lines of quantity -1 (EN 16931 wants no
  negative price); no class falls below nothing.
- 2026-11-26: money pays the oldest invoice of an order first, less what credit notes took back.
"""

from bookings.money.amounts import Money, MoneyValueError, balance, half_up, split
from bookings.money.cancellation import (
    CancellationRule,
    MovingRule,
    free_until,
    price_of_move,
    retained_lines,
    retained_on_cancel,
)
from bookings.money.claims import Claim, left_of
from bookings.money.credits import credit_totals
from bookings.money.discounts import DiscountRule
from bookings.money.invoices import InvoicedLine, InvoiceTotals, invoice_totals, missing
from bookings.money.lines import PricedLine, TaxGroup
from bookings.money.quotes import DepositRule, Quote, quote
from bookings.money.validation import broken_rules
from bookings.money.vouchers import VoucherFacts, VoucherState, last_day, to_take, voucher_state

__all__ = [
    "CancellationRule",
    "Claim",
    "DepositRule",
    "DiscountRule",
    "InvoiceTotals",
    "InvoicedLine",
    "Money",
    "MoneyValueError",
    "MovingRule",
    "PricedLine",
    "Quote",
    "TaxGroup",
    "VoucherFacts",
    "VoucherState",
    "balance",
    "broken_rules",
    "credit_totals",
    "free_until",
    "half_up",
    "invoice_totals",
    "last_day",
    "left_of",
    "missing",
    "price_of_move",
    "quote",
    "retained_lines",
    "retained_on_cancel",
    "split",
    "to_take",
    "voucher_state",
]
