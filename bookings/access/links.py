"""The text of a link that is mailed for one purpose. It is signed from the row each time, and kept nowhere."""

from uuid import UUID

from django.core import signing
from django.urls import reverse
from django.utils.translation import gettext as _

from bookings.access.models import StepUp
from bookings.errors import LinkInvalid

SALT = "bookings.step-up"


def token(asked: StepUp) -> str:
    """The text of a link, with its purpose in it; the same text each time it is asked for."""
    return signing.Signer(salt=SALT).sign(f"{asked.purpose}:{asked.nonce.hex}")


def path(asked: StepUp) -> str:
    """Where the link leads."""
    return reverse("step_up", args=[token(asked)])


def resolve(text: str) -> tuple[str, UUID]:
    """The purpose and the row's number that a link was signed from; LinkInvalid for any other text."""
    try:
        purpose, _colon, nonce = signing.Signer(salt=SALT).unsign(text).partition(":")
        return purpose, UUID(nonce)
    except (signing.BadSignature, ValueError) as error:
        raise LinkInvalid(_("This link is not complete. Open it again from your letter.")) from error
