"""The paper of a gift voucher, to be given away: what it says, and its PDF."""

from bookings.common import formats
from bookings.common import paper as press
from bookings.studio.models import Studio
from bookings.studio.selectors import the_studio
from bookings.vouchers.models import Voucher


def voucher_words(voucher: Voucher, studio: Studio) -> dict[str, object]:
    """What paper and letter say of a voucher; a word that is not there is an empty text."""
    return {
        "studio": studio,
        "studio_address": studio.address.splitlines(),
        "code": formats.in_groups(voucher.code),
        "value": formats.amount(voucher.amount, voucher.currency, studio.locale),
        "for_name": voucher.for_name,
        "from_name": voucher.buyer_name,
        "message": voucher.message,
        "last_day": formats.long_date(voucher.last_day, studio.locale) if voucher.last_day else "",
    }


def voucher_pdf(voucher: Voucher) -> bytes:
    """The voucher on the studio's usual sheet, made as PDF/UA. Equal vouchers give equal bytes."""
    studio = the_studio()
    paper = press.Paper.of(studio.country)
    return press.pdf("bookings/vouchers/papers/voucher.html", voucher_words(voucher, studio), paper=paper)
