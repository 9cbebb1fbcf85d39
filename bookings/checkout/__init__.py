"""From a wish to a placed order: days and prices, start times, a held place, details, the deposit.

Words: a wish is what is asked for; an offer is a day on which it is for sale; a hold is a place kept until a time.
Entry points: `selectors.offered`, `services.booking.hold_sitting`, `.place_order`, `views.choosing`,
`views.details`.

Rules
- A hold is made under the lock of the day with a plan that the verifier has passed; the form's key makes a repeat
  one order.
- A hold lapses by its date; nothing waits for a timer.
- What was typed stays on the page when the time has gone; only the time is chosen anew.

Decisions
- 2026-11-25: a visitor holds one place at a time; taking another start gives the first one back.
- 2026-11-25: letters that ask for a deposit wait three minutes, for the deposit often comes meanwhile.
"""

__all__ = ["forms", "services", "views"]
