"""People without an appointment, in the order in which they came: join, be called, come, become an order.

Words: a place is one person's; to strike off is to give it up for who did not come. Entry points: `services.line`,
`services.orders`, `selectors`, `links`.

Rules
- Every change is made under the lock of the day's bench. Promised times are never moved for a walk-up.

Decisions
- 2026-11-25: a place is a firm bench job at any whole minute, behind the last one, so that hands, bath, wash and
  closing hour hold for walk-ups as for everybody. Not a list beside the plan: it takes more than can be made.
- 2026-11-25: the times shown are the 10 and 90 % quantiles of 500 days played on from now.
"""

__all__ = ["models", "services"]
