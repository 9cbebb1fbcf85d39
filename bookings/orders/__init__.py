"""Clients, orders, their lines and sittings; signed links and the calendar file.

Words: a wish is what is asked for before it has a time; an order is placed once it has a name; its sitting is the
promise; its account is what it costs, what was paid and what is owed; its status is how sure the sitting is. Entry
points: `selectors.account`, `selectors.lines`, `services.placing`, `services.discounts`, `links`, `ics`,
`models.Order.objects`.

Rules
- A price is copied when the order is placed and never looked up again.
- Orders are locked by `Order.objects.locked`, after the day.

Decisions
- 2026-11-26: a discount code is used by an order that holds a place and by a placed one until it is cancelled,
  counted under the lock of the discount's row; the visitor's own hold that is about to be given back does not
  count.
- 2026-11-26: a client's address is a list of rows, not an account: there is no password.
"""

__all__ = ["ics", "links", "models", "selectors", "services", "wishes"]
