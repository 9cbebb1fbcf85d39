"""The studio itself: its one row. Nothing here writes."""

from django.utils.translation import gettext as _

from bookings.errors import StudioMissing
from bookings.studio.models import Studio


def the_studio() -> Studio:
    """The one studio; StudioMissing until it has been set up."""
    studio = Studio.objects.first()
    if studio is None:
        raise StudioMissing(_("Enter the studio's name, address and currency before taking bookings."))
    return studio
