"""The studio itself: its one row."""

from django.conf import settings
from django.http import HttpRequest
from django.utils.translation import gettext as _

from bookings.errors import StudioMissing
from bookings.studio.models import Studio


def the_studio() -> Studio:
    """The one studio; StudioMissing until it has been set up."""
    studio = Studio.objects.first()
    if studio is None:
        raise StudioMissing(_("Enter the studio's name, address and currency before taking bookings."))
    return studio


def studio(request: HttpRequest) -> dict[str, object]:
    """The studio at the head of each page, and whether this is the practice studio."""
    known = getattr(request, "studio", None)  # asked for by LanguageMiddleware already
    return {"studio": known or Studio.objects.first(), "demo": settings.DEMO}
