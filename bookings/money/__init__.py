"""Quotes, deposits, balances, cancellations and invoice totals in whole minor units.

Pure Python: nothing here knows the database, a clock or how an amount is shown. Prices include
tax, as consumer prices do; rates and shares are basis points (2300 = 23 %).
"""

from bookings.money.amounts import Money, MoneyValueError, balance, half_up, split
from bookings.money.cancellation import (
    CancellationRule,
    MovingRule,
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
