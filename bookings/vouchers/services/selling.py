"""Gift vouchers: asked for, paid, withdrawn. What they pay for is in `redeeming`."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import datetime, timedelta
from uuid import UUID

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.common.codes import new_code
from bookings.diary.clock import studio_day
from bookings.errors import SubmissionChanged, VoucherRefused
from bookings.money import Money, last_day
from bookings.outbox import services as outbox
from bookings.outbox.models import Notice
from bookings.payments.models import Method, Payment
from bookings.payments.services import ledger as payments
from bookings.studio.selectors import the_studio
from bookings.vouchers.models import Voucher
from bookings.vouchers.selectors import facts_of

CODE_SIGNS = 12  # 59 bits
# Buyers come one by one; a machine that fills in forms comes faster.
MOST_A_MINUTE = 6


@dataclass(frozen=True, slots=True)
class Gift:
    """What a buyer asks for: a sum in minor units, who gives it to whom, and the words that go with it."""

    amount: Money
    buyer_name: str
    buyer_email: str
    for_name: str = ""
    message: str = ""


@transaction.atomic
def ask(*, submission_key: UUID, gift: Gift, now: datetime, at_desk: bool = False) -> Voucher:
    """Write a voucher that counts once it is paid for; the same form sent twice is one voucher.

    SubmissionChanged when the key was used for another gift, VoucherRefused when too many are asked for at once.
    """
    if repeat := Voucher.objects.filter(submission_key=submission_key).first():
        return _same(repeat, gift)
    if not at_desk:
        _refuse_rush(now)
    studio = the_studio()
    facts = asdict(gift) | {
        "code": new_code(CODE_SIGNS),
        "currency": studio.currency,
        "asked_at": now,
        "last_day": last_day(studio_day(now=now), studio.voucher_months),
    }
    voucher, created = Voucher.objects.get_or_create(submission_key=submission_key, defaults=facts)
    return voucher if created else _same(voucher, gift)


@transaction.atomic
def record_money(
    *,
    voucher_id: int,
    amount: Money,
    method: Method,
    reference: str,
    now: datetime,
    recorded_by: User | None = None,
    note: str = "",
) -> Payment:
    """Enter money for a voucher, or with a minus sign given back; once it is paid in full, its letter is written.

    What came is kept whatever the voucher is worth. The same reference with another amount is ReferenceTaken.
    """
    voucher = locked(voucher_id=voucher_id)
    payment = payments.enter_once(
        payment=Payment(
            for_voucher=voucher,
            amount=amount,
            method=method,
            reference=reference,
            at=now,
            recorded_by=recorded_by,
            note=note,
        )
    )
    facts = facts_of(voucher)
    if not facts.withdrawn and facts.owed <= 0:
        outbox.queue_voucher(voucher=voucher, due_at=now)
    return payment


@transaction.atomic
def withdraw(*, voucher_id: int, now: datetime) -> Voucher:
    """Take back a voucher of which nothing was used; what was paid for it is then to be given back. Safe twice."""
    voucher = locked(voucher_id=voucher_id)
    if facts_of(voucher).used:
        raise VoucherRefused(
            _("Part of this voucher has been used. Only one that is whole can be taken back.")
        )
    if voucher.withdrawn_at is None:
        voucher.withdrawn_at = now
        voucher.save(update_fields=["withdrawn_at"])
    return voucher


@transaction.atomic
def forget_people(*, emails: Sequence[str], now: datetime) -> int:
    """Forget who bought vouchers under these addresses, for whom, and their words; return how many vouchers.

    The vouchers stay worth what they are to whoever has the code. Letters that wait are not sent.
    """
    forgotten = 0
    for email in filter(None, emails):
        bought = Voucher.objects.filter(buyer_email__iexact=email)
        Notice.objects.filter(voucher__in=bought).update(last_error="")
        Notice.objects.filter(voucher__in=bought, sent_at=None).update(withdrawn_at=now)
        forgotten += bought.update(buyer_name="", buyer_email="", for_name="", message="")
    return forgotten


def locked(*, voucher_id: int) -> Voucher:
    """The voucher, locked. What is left on it is counted after this, in a query of its own: on PostgreSQL a sum in
    the query that waited for the lock would still be the old one.
    """
    return Voucher.objects.select_for_update(of=("self",)).get(pk=voucher_id)


def _same(voucher: Voucher, gift: Gift) -> Voucher:
    if any(getattr(voucher, fact) != told for fact, told in asdict(gift).items()):
        raise SubmissionChanged(_("This form was already sent with other words. Open the page again."))
    return voucher


def _refuse_rush(now: datetime) -> None:
    lately = Voucher.objects.filter(asked_at__gt=now - timedelta(minutes=1))
    if lately.count() >= MOST_A_MINUTE:
        raise VoucherRefused(_("Many vouchers are asked for just now. Send this once more in a minute."))
