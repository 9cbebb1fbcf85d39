"""Signed addresses of the walk-up line: of a day for whoever stands at the stall, of a place for whom it is kept.

They hold no time, so that a sheet printed on the day before shows the code that the screen shows.
"""

from django.core import signing
from django.utils.translation import gettext as _

from bookings.diary.models import SittingDay
from bookings.errors import LinkInvalid
from bookings.walkups.models import LinePlace

LINE = "bookings.line"
PLACE = "bookings.line-place"


def line_token(day: SittingDay) -> str:
    """The address of a day's line, printed on the stall. It opens the form to join and the large page."""
    return signing.Signer(salt=LINE).sign_object(day.pk)


def place_token(place: LinePlace) -> str:
    """The address of one place in the line. It shows a number and times, and can give the place up."""
    return signing.Signer(salt=PLACE).sign_object(place.pk)


def resolve_line(token: str) -> SittingDay:
    """The day that a line's address was made for; LinkInvalid for any other text."""
    days = SittingDay.objects.select_related("venue", "bench_day__bench__largest_size")
    day = days.filter(pk=_resolve(token, LINE)).first()
    if day is None:
        raise LinkInvalid(_("This day is no longer kept. Ask at the stall."))
    return day


def resolve_place(token: str) -> LinePlace:
    """The place that an address was made for; LinkInvalid for any other text."""
    places = LinePlace.objects.select_related(
        "day__venue", "day__bench_day__bench__largest_size", "size", "order"
    )
    place = places.filter(pk=_resolve(token, PLACE)).first()
    if place is None:
        raise LinkInvalid(_("This place in the line is no longer kept. Ask at the stall."))
    return place


def _resolve(token: str, salt: str) -> int:
    try:
        return int(signing.Signer(salt=salt).unsign_object(token))
    except signing.BadSignature as error:
        raise LinkInvalid(_("This address is not complete. Scan the code on the stall again.")) from error
