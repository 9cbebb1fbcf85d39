"""The practice studio and the rehearsal: invented, complete, safe to break, played through the real services.

Entry points: `studio.load` (manage.py demo), `rehearsal` (manage.py rehearse).

Rules
- Names and addresses are invented, under example.org. Loading twice changes nothing.
- The rehearsal books until the bench is full, works the day with one spoilt plate, takes the money and leaves the
  papers.
- Nothing in the product imports this room; a practice card exists in the practice studio only.

It is the smoke test and what a newcomer runs first.
"""

__all__ = ["rehearsal", "studio"]
