"""From the wash to the parcel: the rack, varnish sessions, cure, closed days, and when plates are ready.

Words: the rack is where washed plates dry; a session varnishes many; the outlook is when plates are ready, how
surely. Entry points: `services.bring_on` (many plates by one press), `selectors.rack`, `selectors.wash`,
`selectors.outlook`, `forecast` (pure).

Rules
- A batch takes plates from the shortest time on and refuses the rest.

Decisions
- 2026-11-26: durations are triangular (least, usual, most), drawn a thousand times with luck that hangs on the
  plate's own slot, so that equal questions have equal answers. Not sums of quantiles: too late by days.
- 2026-11-26: plates are taken in the order in which their dates were promised, each into the first session that
  begins when it is dry and has room; held to the same weeks played in simpy.
"""

__all__ = ["forecast", "models", "selectors", "services"]
