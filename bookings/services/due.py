"""All work that waits in rows, selected by its state and never by a struck hour: a missed sweep loses nothing."""

from datetime import datetime

from bookings.services import notices, payments, pickup


def drain(*, now: datetime) -> int:
    """Confirm what was paid, tell clients whose plates are ready, send the letters that are due; return how many."""
    payments.confirm_covered(now=now)
    pickup.announce_ready(now=now)
    return notices.send_due(now=now)
