"""The address under which a photographer's telephone fetches the sittings."""

from django.conf import settings
from django.db import models


class CalendarFeed(models.Model):
    """One secret address of one person at the studio. Only a digest of it is kept, so it is shown once."""

    owner = models.OneToOneField(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="+")
    digest = models.CharField(max_length=64, unique=True)
    with_names = models.BooleanField(
        default=False, help_text="Clients' names and telephone numbers are in it."
    )
    made_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"calendar of {self.owner}"
