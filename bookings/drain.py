"""Due work: what waits in rows, found by its state and never by the hour, so that a missed sweep loses nothing.

Each entry of WORK is a service of a room, safe to run twice. This table alone knows them all; no room knows it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from bookings.cards.services import polling as card_asking
from bookings.cards.services import webhooks as card_messages
from bookings.day.services import lateness
from bookings.handover.services import pickup, promises
from bookings.invoices.services import runs as invoice_runs
from bookings.letters.services import reminders
from bookings.letters.services import sending as notices
from bookings.payments.services import ledger as payments
from bookings.studio.language import speaking_for_the_studio
from bookings.waitlist import services as waiting
from bookings.walkups.services import line
from plates.schedule.services import start_times as starts


@dataclass(frozen=True, slots=True)
class Work:
    """One kind of due work; `run(now=...)` does all of it that is due."""

    name: str
    run: Callable[..., object]


LETTERS = Work("send letters", notices.send_due)
# In this order: what came is entered before it is acted on, and letters go out before what takes the processor's time.
WORK = (
    Work("enter refunds that were told early", card_messages.settle_waiting),
    Work("confirm what is paid", payments.confirm_covered),
    Work("announce plates that are ready", pickup.announce_ready),
    Work("remind of plates not collected", pickup.remind_uncollected),
    Work("offer what became free", waiting.offer_freed),
    Work("queue reminders", reminders.queue_due),
    LETTERS,
    Work("issue invoices of runs", invoice_runs.advance),
    Work("erase names of walk-ups", line.forget_names),
    Work("erase names of the waiting list", waiting.forget),
    Work("catch up with late days", lateness.catch_up),
    Work("review promised dates", promises.review),
    Work("work out start times", starts.work_out),
    Work("ask the card service", card_asking.ask),
)


def drain(*, now: datetime) -> int:
    """Do everything that is due; return how many letters went out."""
    with speaking_for_the_studio():
        done = {work.name: work.run(now=now) for work in WORK}
    return int(str(done[LETTERS.name]))
