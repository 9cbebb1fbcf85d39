"""The ledger of money, and the cash box.

Words: a payment is an entry; a refund is a negative one; a balance is always worked out anew. Entry points:
`services.ledger.record`, `.confirm_if_covered`, `.confirm_covered`, `services.cash`, `selectors`.

Rules
- The ledger is only added to; triggers hold that. A reference enters once.
- A payment waits for the lock of its order, and cash counts for the studio's row.

Decisions
- 2026-11-25: money first, in a transaction of its own: what came is kept even when the place has gone, and the
  order then needs a new time. The drain makes good a crash between the two.
- 2026-11-26: cash since the last count is all cash less what was counted, because on PostgreSQL a payment may get
  its number before a count and be committed after it.
"""

__all__ = ["forms", "models", "services"]
