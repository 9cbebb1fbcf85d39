"""Cards paid online: a page of the card service is opened, its messages are entered, money is refunded.

Words: a checkout is one page that a client was sent to; a notice is one signed message; received is what came by a
page. Entry points: `services.paying` (open a page, refund), `services.webhooks.ingest`, `services.polling`,
`gateway`.

Rules
- Only `gateway` knows the service's library; `events` and `amounts` are pure and speak our words and units.
- A message is believed only when signed, and entered once, in any order, after a crash at any point.
- Only pages with a card button may lead out (form-action).

Decisions
- 2026-11-26: a payment's reference is made from the service's name for it, and the message is noted last; a crash
  between the two makes the service tell it again, and the same reference is the same payment. Not one transaction
  around all of it: a place that is gone would take the record of the money with it.
- 2026-11-26: money is entered if it can be. Another sum, a cancelled order, too much: entered and put before the
  owner. Another currency or an unknown page: not entered. A contested payment: the owner enters what is taken.
- 2026-11-26: sums follow the service's own list of currencies; UGX, which it names in two ways, is refused.
- 2026-12-01: a refund told before its payment is an outcome (WAITING), no longer a sentence that the worker looks
  for.
"""

__all__ = ["models", "selectors", "services"]
