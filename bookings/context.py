"""What every page knows."""

from django.conf import settings
from django.http import HttpRequest

from bookings.models import Studio


def studio(request: HttpRequest) -> dict[str, object]:
    """The studio at the head of each page, and whether this is the practice studio."""
    return {"studio": Studio.objects.first(), "demo": settings.DEMO}
