"""Signed addresses of places on a waiting list. They are mailed to whom a place belongs, and hold no time."""

from django.core import signing
from django.urls import reverse
from django.utils.translation import gettext as _

from bookings.errors import LinkInvalid
from bookings.waitlist.models import Waiting
from bookings.waitlist.selectors import with_orders

SALT = "bookings.waiting"


def token(place: Waiting) -> str:
    """The address of one place on a list: what became of it, and how to leave."""
    return signing.Signer(salt=SALT).sign_object(place.pk)


def path(place: Waiting) -> str:
    """Where the link leads."""
    return reverse("waiting", args=[token(place)])


def resolve(text: str) -> Waiting:
    """The place that an address was made for; LinkInvalid for any other text."""
    try:
        place_id = int(signing.Signer(salt=SALT).unsign_object(text))
    except signing.BadSignature as error:
        raise LinkInvalid(_("This link is not complete. Open it again from your letter.")) from error
    place = with_orders().filter(pk=place_id).first()
    if place is None:
        raise LinkInvalid(_("This place on the list is no longer kept. Write to the studio."))
    return place
