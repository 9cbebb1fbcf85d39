"""What things cost and on which terms: sizes, extras, surcharges, discounts, tax classes, terms.

Words: the price book is all prices up to a date, read once. Entry points: `selectors.price_book`, `selectors`,
`models`.

Rules
- All prices include tax, in whole minor units. Prices hold from a date; orders copy them.
- Terms that an order points at cannot be changed: a trigger holds that (bookings/guards.py).

Decisions
- 2026-11-26: further plates of a sitting may cost less, company and travel more; each is a line of its own with its
  tax.
- 2026-11-26: terms by venue, frozen once agreed to; a newer version is another row.
"""

__all__ = ["models", "selectors"]
