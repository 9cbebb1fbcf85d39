"""All work that waits in rows, selected by its state and never by a struck hour: a missed sweep loses nothing."""

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


def drain(*, now: datetime) -> int:
    """Confirm what was paid, send the letters that are due, those of ready and forgotten plates too; return how many.

    What the card service told too early is entered first; what became free is offered to those who wait for it, and
    reminders are queued as their time comes. The next few invoices of a run are issued, names of a walk-up line or
    waiting list that is over are forgotten, promised dates that are at risk are noted, and the times of days under way
    catch up with what was pressed. Then the start times of the days that have changed are worked out, for the pages
    that show them, and the card service is asked about pages of which it told nothing.
    """
    with speaking_for_the_studio():
        card_messages.settle_waiting(now=now)
        payments.confirm_covered(now=now)
        pickup.announce_ready(now=now)
        pickup.remind_uncollected(now=now)
        waiting.offer_freed(now=now)
        reminders.queue_due(now=now)
        sent = notices.send_due(now=now)
        invoice_runs.advance(now=now)
        line.forget_names(now=now)
        waiting.forget(now=now)
        lateness.catch_up(now=now)
        promises.review(now=now)
        starts.work_out(now=now)
        card_asking.ask(now=now)
    return sent
