"""A mailed link opens one purpose for ten minutes: clients have no password.

Words: a step-up is one such link; it is asked for, mailed, resolved and used. Entry points: `services.ask` mails
one, `services.use` uses it up, `guard.opened_for` lets a view be seen by who used it.

Rules
- A link opens by POST only, once, for one purpose, and only while the order is what it was when it was asked for.
- Who is let in gets a new session key and a grant that names order, purpose and end.

Decisions
- 2026-11-26: the link is signed from the row's nonce each time its letter is written, so nothing at rest is a link.
  Not a stored hash: the letter could not be written after it.
- 2026-11-26: the link in an ordinary letter shows time and place only; everything personal lies behind a step-up.
"""

__all__ = ["guard", "links", "models"]
