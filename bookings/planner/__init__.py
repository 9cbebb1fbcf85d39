"""The days ahead: what is open, sold and binding; what-if; chances; the telephone's calendar.

Entry points: `selectors.days`, `selectors.what_if`, `services` (the secret of a feed), `ical`, `views.days`,
`views.feed`.

Rules
- A page starts no long work of its own after two seconds; it offers to work the rest out.
- The feed names nobody unless its owner asks for names.

Decisions
- 2026-11-26: the secret of a calendar address is not kept, only its SHA-256: 256 bits of chance cannot be guessed.
  Not a signed address: the same text for ever, and nothing to make it stop.
- 2026-11-26: times in the feed are UTC, and an event's UID hangs on the sitting, not on its time.
"""

__all__ = ["models", "selectors"]
