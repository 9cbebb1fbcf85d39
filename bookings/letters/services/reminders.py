"""Letters that time makes due, and the wish for no more of some of them."""

from datetime import datetime, timedelta

from bookings.letters import unsubscribe as stop_links
from bookings.letters.selectors import reminders
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice, NoticeKind, ReminderStop

# A wrong press at the wash can be taken back before anybody is told of it.
TIME_TO_TAKE_BACK = timedelta(minutes=10)


def queue_due(*, now: datetime) -> list[Notice]:
    """Queue every letter that became due by now; the same one once."""
    return [
        outbox.queue(
            order=each.order,
            kind=each.kind,
            occasion=each.occasion,
            sequence=each.sequence,
            due_at=now + TIME_TO_TAKE_BACK if each.kind == NoticeKind.IN_WASH else now,
        )
        for each in reminders.due(now=now)
    ]


def stop(*, token: str, now: datetime) -> None:
    """Send no more reminders to the address that a link was made for. Safe twice; LinkInvalid."""
    ReminderStop.objects.get_or_create(digest=stop_links.resolve(token), defaults={"at": now})


def allow(*, token: str) -> None:
    """Send reminders to that address again. Safe twice; LinkInvalid."""
    ReminderStop.objects.filter(digest=stop_links.resolve(token)).delete()
