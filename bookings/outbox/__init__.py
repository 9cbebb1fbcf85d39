"""Letters as rows: queued in the transaction that causes them, sent afterwards by bookings.letters.

Words: a notice is one letter to one client; its occasion tells it from others of its kind and is never read back.
Entry points: `services.queue` and its kin, `services.ring` (wakes the worker), `models.Notice.objects.due`,
`files`.

Rules
- Queueing is idempotent for a kind and an occasion. Sent at least once, under a Message-ID that never changes.
- Rows name their subjects as strings, so that this room knows none of the rooms above it.

Decisions
- 2026-11-25: rows are the truth and the broker only rings; the sweep finds what was missed.
- 2026-12-01: the parcel, the link, the calendar sequence and the later start are columns; they were packed into one
  text.
"""

__all__ = ["files", "models", "services"]
