"""The waiting list of a day: joined, offered what becomes free in its order, left.

Entry points: `services.join`, `services.offer_freed` (the drain), `services.leave`, `selectors`, `links`, `letter`.

Rules
- Each place has one offer. An offer is a hold, so no place is offered twice.
- Joining with an address that waits already changes nothing and is answered the same.

Decisions
- 2026-11-26: the drain goes through those who wait in the order of their rows and holds the first start that fits
  wish, hours and light, in one transaction with the letter. Not a priority inside the sale: every sale would have
  to know.
- 2026-11-26: each is looked at once for a fingerprint of the day, so a quiet day costs two queries and no planning.
"""

__all__ = ["letter", "models", "selectors", "services"]
