"""What every page knows."""

from django.conf import settings
from django.http import HttpRequest

from bookings.studio.models import Studio


def studio(request: HttpRequest) -> dict[str, object]:
    """The studio at the head of each page, and whether this is the practice studio."""
    known = getattr(request, "studio", None)  # asked for by LanguageMiddleware already
    return {"studio": known or Studio.objects.first(), "demo": settings.DEMO}
