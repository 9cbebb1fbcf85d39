"""Signed links for whoever buys a voucher."""

from datetime import timedelta

from django.core import signing
from django.utils.translation import gettext as _

from bookings.errors import LinkInvalid
from bookings.orders.links import _row_id
from bookings.vouchers.models import Voucher

VOUCHER = "bookings.voucher"


# Time enough for a transfer; afterwards the voucher itself is what its buyer has.
VOUCHER_FOR = timedelta(days=30)


def voucher_token(voucher: Voucher) -> str:
    """A link for whoever buys a voucher: how to pay, and once it is paid the voucher."""
    return signing.dumps(voucher.pk, salt=VOUCHER)


def resolve_voucher(token: str) -> Voucher:
    """The voucher that a link was made for; LinkInvalid for any other text and after thirty days."""
    voucher = Voucher.objects.filter(pk=_row_id(token, VOUCHER, VOUCHER_FOR)).first()
    if voucher is None:
        raise LinkInvalid(_("The voucher behind this link is no longer kept. Write to the studio."))
    return voucher
