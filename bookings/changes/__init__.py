"""What becomes of a promise that was made: rescheduled, cancelled, repeated without charge, or added to.

Entry points: `services.sittings.move`, `.cancel`, `services.no_plate`, `services.additions`; views for the
photographer (`views.studio`) and for a client behind a mailed link (`views.client`).

Rules
- A page sends the cost it showed along; another cost by now is refused rather than charged.
- The old time is given back only when the new one is promised.

Decisions
- 2026-11-26: what a cancelled order costs is fixed when it is cancelled (`Order.kept`), since worked out anew it
  hung on the payments of the moment.
- 2026-11-26: a late change of time is a line of the order, taxed like the first plate; it raises no deposit and
  only a promised time costs something.
- 2026-11-26: a sitting that gave no plate goes over to a new job; the begun one stays as it was, its slots given
  up.
"""

__all__ = ["selectors"]
