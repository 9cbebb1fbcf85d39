"""From the rack to the right hands: promised dates, the rack with names, hand-over by code, the post, labels.

Words: a promise is the date by which plates are ready; a handover is plates into hands; a parcel goes by post.
Entry points: `services.promises`, `services.pickup`, `services.handing_over`, `services.posting`, `selectors.desk`,
`labels`, `papers`.

Rules
- No plate leaves while money is owed. A named person needs the code; a client without it needs a note of how they
  are known.
- A handover is append-only and has no name in it; names, signatures and notes are emptied when a client is erased.

Decisions
- 2026-11-26: a date is promised behind all that were promised before, so that no promise gets worse for a later
  sale.
- 2026-11-26: a promised date is frozen; the drain notes what is at risk, two points below the certainty, so that
  sampling alone calls nothing at risk. A rescheduled or repeated sitting gets a new date.
- 2026-11-26: codes have 39 bits and no limit of tries: they are asked for behind the photographer's sign-in only.
- 2026-11-26: lying long enough is not being dry: a batch refuses what has not lain, the single press asks nothing.
"""

__all__ = ["forms", "labels", "models", "papers", "selectors", "services"]
