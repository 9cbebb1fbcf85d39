"""Letters as rows: queued in the transaction that caused them, sent afterwards, at least once."""

import logging
import smtplib
from collections.abc import Iterable
from datetime import datetime, timedelta

from django.core.mail import BadHeaderError

from bookings.errors import BookingsError
from bookings.letters import mail
from bookings.letters.failures import Fate, fate_of, reply_text
from bookings.letters.selectors import validity as letters
from bookings.outbox.models import MailAway, Notice

# With the longest time between two looks at the rows (ten seconds), the post goes on within a minute of its return.
OFTEN, SELDOM = timedelta(seconds=20), timedelta(minutes=15)


AT_FIRST = (timedelta(seconds=5), timedelta(seconds=10))


TRIES_OFTEN = 180  # about an hour


MOST_TRIES = TRIES_OFTEN + 192  # and two days


# No letter was waiting meanwhile: who is away now went away anew.
ANOTHER_TIME = timedelta(minutes=10)


NOT_TAKEN = (smtplib.SMTPException, OSError, BadHeaderError, BookingsError)


# With the sweep of every ten seconds, what a sender that died had in hand goes out within a minute.
IN_HAND = timedelta(seconds=40)


WAITING = ("waiting__day__venue", "waiting__day__bench_day", "waiting__order__sitting__bench_job")


logger = logging.getLogger(__name__)


def send_due(*, now: datetime) -> int:
    """Send every letter that is due and return how many went out. Failures wait and try again.

    While the mail server takes nothing the letters stay as they are, in their order, and one of them, another each
    time, is tried every few seconds: all leave as soon as it is back.
    """
    waiting = list(Notice.objects.due(now).values_list("pk", flat=True))
    away = MailAway.objects.first() if waiting else None
    if not waiting or (away is not None and now < away.try_again_at):
        return 0
    tried_first = waiting.pop(away.tries % len(waiting)) if away is not None else waiting.pop(0)
    return _Round(now).send([tried_first, *waiting])


class _Round:
    """One look at the letters that wait.

    A failure right after a letter went out is the next letter's own. Any other one is the server's, and ends the
    round: one that hangs is waited for once, and not once a letter.
    """

    def __init__(self, now: datetime) -> None:
        self.now = now
        self.server_is_there = False

    def send(self, notice_ids: Iterable[int]) -> int:
        sent = 0
        for notice_id in notice_ids:
            if not _claim(notice_id, self.now):
                continue
            try:
                if _send(notice_id, self.now):
                    sent += 1
                    self._server_answered()
            except NOT_TAKEN as error:
                if not self._goes_on(notice_id, error):
                    break
        return sent

    def _goes_on(self, notice_id: int, error: Exception) -> bool:
        """Note a failure; whether the round goes on after it."""
        fate = fate_of(error)
        if fate == Fate.AWAY and not self.server_is_there:
            _let_go(notice_id, error, self.now)
            return False
        if fate == Fate.AWAY:
            self.server_is_there = False
        else:
            self._server_answered()
        _postpone(Notice.objects.get(pk=notice_id), fate, error, self.now)
        return True

    def _server_answered(self) -> None:
        if not self.server_is_there:
            MailAway.objects.all().delete()
        self.server_is_there = True


def _claim(notice_id: int, now: datetime) -> bool:
    """Take a letter in hand, so that two senders do not both send it; a sender that dies lets it go in time."""
    return bool(Notice.objects.due(now).filter(pk=notice_id).update(claimed_until=now + IN_HAND))


def _send(notice_id: int, now: datetime) -> bool:
    # No transaction is open here: a mail server that hangs must not hold up the diary.
    about = ("order__client", "order__terms", "voucher", "invoice__series", *WAITING)
    notice = Notice.objects.select_related(*about).get(pk=notice_id)
    if not letters.still_valid(notice, now=now):
        Notice.objects.filter(pk=notice_id).update(withdrawn_at=now, claimed_until=None)
        return False
    mail.message(notice).send()
    notice.sent_at = now
    notice.claimed_until = None
    notice.save(update_fields=["sent_at", "claimed_until"])
    return True


def _let_go(notice_id: int, error: Exception, now: datetime) -> None:
    """Leave a letter as it is, and the server in peace for a little: longer each time, and never long."""
    Notice.objects.filter(pk=notice_id).update(claimed_until=None)
    before = MailAway.objects.filter(try_again_at__gt=now - ANOTHER_TIME).first()
    since, tries = (before.since, before.tries + 1) if before else (now, 1)
    facts = {"since": since, "tries": tries, "try_again_at": now + _pause(tries), "error": reply_text(error)}
    MailAway.objects.update_or_create(pk=1, defaults=facts)
    logger.warning("no letter is taken (try %s): %s", tries, type(error).__name__)


def _postpone(notice: Notice, fate: Fate, error: Exception, now: datetime) -> None:
    """Let a letter wait, often for an hour and seldom for two days; what never gets better is left to the owner."""
    notice.tries += 1
    notice.last_error = reply_text(error)
    notice.due_at = now + (_pause(notice.tries) if notice.tries <= TRIES_OFTEN else SELDOM)
    notice.claimed_until = None
    notice.dead_address = fate == Fate.DEAD
    if fate in (Fate.DEAD, Fate.REFUSED) or notice.tries >= MOST_TRIES:
        notice.given_up_at = now
    notice.save(
        update_fields=["tries", "last_error", "due_at", "claimed_until", "dead_address", "given_up_at"]
    )
    logger.warning("notice %s was not sent (try %s): %s", notice.pk, notice.tries, type(error).__name__)


def _pause(tries: int) -> timedelta:
    return OFTEN if tries > len(AT_FIRST) else AT_FIRST[tries - 1]
