"""By which a mail address stops reminders (RFC 8058): signed, good for ever, and naming nobody.

A link holds a keyed digest of the address, and so does what is remembered of it: neither tells who was written to,
and a stop holds after everything else about a client was erased. Digests of earlier keys are known as long as
SECRET_KEY_FALLBACKS names them.
"""

import hmac

from django.conf import settings
from django.core import signing
from django.urls import reverse
from django.utils.translation import gettext as _

from bookings.errors import LinkInvalid

SALT = "bookings.reminders"


def digests(address: str) -> list[str]:
    """What stands for an address, by the present key first, then by each earlier one; its case makes no difference."""
    plain = f"{SALT}:{address.strip().casefold()}".encode()
    keys = [settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS]
    return [hmac.new(str(key).encode(), plain, "sha256").hexdigest() for key in keys]


def token(address: str) -> str:
    """The text of a link that stops reminders to that address."""
    return signing.Signer(salt=SALT).sign(digests(address)[0])


def address_of(email: str) -> str:
    """Where the link leads, in full, as the head of a letter wants it."""
    return f"{settings.SITE_ADDRESS}{reverse('stop_reminders', args=[token(email)])}"


def head(link: str) -> dict[str, str]:
    """The lines of a letter's head by which mail software offers to stop it; none without a link.

    With one click (RFC 8058) only where the address is an https one, as the standard asks.
    """
    if not link:
        return {}
    by_click = {"List-Unsubscribe-Post": "List-Unsubscribe=One-Click"} if link.startswith("https:") else {}
    return {"List-Unsubscribe": f"<{link}>", **by_click}


def resolve(text: str) -> str:
    """The digest that a link was signed from; LinkInvalid for any other text."""
    try:
        return signing.Signer(salt=SALT).unsign(text)
    except signing.BadSignature as error:
        raise LinkInvalid(_("This link is not complete. Open it again from your letter.")) from error
