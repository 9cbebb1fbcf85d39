"""Invoices and credit notes: issued, frozen, printed, sent as e-invoices, many at once, sealed when a client is erased.

Words: open, overdue, paid, credited are statuses, worked out and never stored; a run issues many; sealed: kept by
law. Entry points: `services.issuing.issue`, `services.credit_notes`, `services.runs`, `selectors.status`, `paper`,
`einvoice`.

Rules
- Numbers have no gap: the counter row is locked in the issuing transaction. Issued rows never change.
- An order has one open invoice; a new one follows when credit notes have taken back every line of the last.
- A sealed invoice is opened for a reason that is noted for good.

Decisions
- 2026-11-25: prices include tax, invoices are net: each line rounded first, sums exact, the rest by the rounding
  amount (EN 16931, BT-114).
- 2026-11-26: the e-invoice is made anew from the frozen rows, as the paper is. What the standard has no room for is
  refused with a sentence, and the paper printed without it.
- 2026-11-26: the tax of a credit note is that on all taken back by now less that taken back before, so parts add
  up.
- 2026-11-26: runs are rows that the drain works, one order a transaction; papers come as one ZIP, not as one PDF.
- 2026-11-26: a number never has an earlier date than a lower one.
"""

__all__ = ["letter", "models", "paper", "selectors", "services"]
