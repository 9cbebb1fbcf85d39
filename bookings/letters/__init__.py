"""The letters to clients: composed, in our words or the studio's own, reminded, sent, and what failed.

Words: a notice is the row (bookings.outbox), a letter what it becomes; a wording is the studio's own text; a
placeholder is a name in it. Entry points: `mail.message`, `services.sending.send_due`, `services.reminders`,
`selectors.validity`.

Rules
- A letter is composed when it goes out, about the order as it then stands; one that is no longer valid is
  withdrawn.
- Text and HTML say the same. Cautions stay below any wording.

Decisions
- 2026-11-26: own words are filled in once, from a closed list; no template engine, no attributes.
- 2026-11-26: what time makes due is found by the state of rows; a letter of a sitting carries its calendar
  sequence.
- 2026-11-26: a stop of reminders is a keyed digest of the address: it holds for every order and names nobody.
- 2026-11-26: a mail server that is away is one row and ends the round; a recipient's refusal is that letter's own.
  A dead sender lets a letter go after forty seconds.
- 2026-11-26: a calendar mail is a form of its letter (RFC 6047).
"""

__all__ = ["models", "selectors", "services"]
