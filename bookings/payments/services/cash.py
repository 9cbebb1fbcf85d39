"""Counting the cash box. A difference is written down, never put right."""

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.errors import CashNotCounted
from bookings.money import Money
from bookings.payments.models import CashUp
from bookings.payments.selectors import CashBox, cash_box, newest_cash_payment
from bookings.studio.models import Studio
from bookings.studio.selectors import the_studio


@transaction.atomic
def count(
    *,
    counted: Money,
    put_in: Money = 0,
    note: str = "",
    shown: CashBox,
    counted_by: User,
    now: datetime,
) -> CashUp:
    """Write down what lay in the box, beside what the ledger says, all in minor units.

    `put_in` is change put in, or with a minus sign taken to the bank. `shown` is the box as it was when the money was
    counted: CashNotCounted when it was counted meanwhile, or cash came in.
    """
    studio = Studio.objects.select_for_update().get(pk=the_studio().pk)  # one count after the other
    box = cash_box(currency=studio.currency)
    _refuse_another_box(box, shown)
    return CashUp.objects.create(
        opened_with=box.opened_with,
        came_in=box.came_in,
        put_in=put_in,
        counted=counted,
        difference=counted - box.expected(put_in),
        currency=box.currency,
        last_payment=newest_cash_payment(currency=box.currency),
        at=now,
        counted_by=counted_by,
        note=note,
    )


def _refuse_another_box(box: CashBox, shown: CashBox) -> None:
    if box.last != shown.last:
        raise CashNotCounted(_("The cash was counted meanwhile. Look at that count first, then count again."))
    if box.expected() != shown.expected() or box.currency != shown.currency:
        raise CashNotCounted(
            _("Cash came in or went out meanwhile. Look at what should be there, then count again.")
        )
