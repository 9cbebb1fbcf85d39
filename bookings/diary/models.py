"""Venues, sitting days and sittings."""

from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo, available_timezones

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext as _

from bookings.diary.daylight import HIGHEST, LOWEST, Position
from plates.bench.models import BenchDay


def validate_zone(name: str) -> None:
    if name not in available_timezones():
        raise ValidationError(_("Use a zone of the tz database, for example Europe/Lisbon."))


def degrees(most: int, help_text: str) -> "models.DecimalField[Decimal | None, Decimal | None]":
    """A column for an angle between -`most` and `most` degrees, to a metre on the ground; it may be empty."""
    return models.DecimalField(
        null=True,
        blank=True,
        max_digits=8,
        decimal_places=5,
        validators=[MinValueValidator(-most), MaxValueValidator(most)],
        help_text=help_text,
    )


class Venue(models.Model):
    """A place where sittings are held: the studio at home, or a pop-up with a travelling dark tent."""

    name = models.CharField(max_length=80, unique=True)
    address = models.TextField(max_length=300)
    zone = models.CharField("time zone", max_length=60, validators=[validate_zone])
    finding_it = models.TextField(
        max_length=500, blank=True, help_text="How to find the door; told to clients."
    )
    latitude = degrees(90, "Degrees, north positive. Needed for days that work by daylight.")
    longitude = degrees(180, "Degrees, east positive. Needed for days that work by daylight.")

    class Meta:
        ordering = ["name"]
        constraints = [
            models.CheckConstraint(
                name="venue_position",
                # Said of each that it is there: a comparison with NULL alone would let half a position pass.
                condition=Q(latitude__isnull=True, longitude__isnull=True)
                | Q(
                    latitude__isnull=False,
                    latitude__range=(-90, 90),
                    longitude__isnull=False,
                    longitude__range=(-180, 180),
                ),
                violation_error_message=(
                    "Enter both a latitude from -90 to 90 degrees and a longitude from -180 to 180, or neither."
                ),
            )
        ]

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        unplaced = self.latitude is None or self.longitude is None
        if unplaced and self.pk is not None and self.days.filter(by_daylight=True).exists():
            raise ValidationError(_("Days of this venue work by daylight, which needs its position."))

    @property
    def tz(self) -> ZoneInfo:
        return ZoneInfo(self.zone)

    @property
    def position(self) -> Position | None:
        """Where the sun is looked for; None until latitude and longitude have been entered."""
        if self.latitude is None or self.longitude is None:
            return None
        return Position(float(self.latitude), float(self.longitude))


class SittingDay(models.Model):
    """A day on which clients may sit: a bench's day at a venue."""

    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, related_name="days")
    bench_day = models.OneToOneField(BenchDay, on_delete=models.PROTECT, related_name="+")
    published = models.BooleanField(default=True, help_text="Clients can book it.")
    keeps_line = models.BooleanField(
        "keeps a line", default=False, help_text="People without an appointment may stand in line on the day."
    )
    by_daylight = models.BooleanField(
        default=False, help_text="Starts are offered only while the sun stands high enough."
    )
    sun_height = models.DecimalField(
        "height of the sun",
        default=Decimal(10),
        max_digits=3,
        decimal_places=1,
        validators=[MinValueValidator(LOWEST), MaxValueValidator(HIGHEST)],
        help_text="Degrees of its centre above a level horizon, for a day by daylight; at 0 it is about to touch it.",
    )

    class Meta:
        ordering = ["bench_day__on", "id"]
        constraints = [
            models.CheckConstraint(
                name="sitting_day_sun_height",
                condition=Q(sun_height__range=(LOWEST, HIGHEST)),
                violation_error_message=f"The sun is asked for between {LOWEST} and {HIGHEST} degrees.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.venue}, {self.bench_day.on:%d %B %Y}"

    def clean(self) -> None:
        if self.by_daylight and self.venue.position is None:
            raise ValidationError(
                {
                    "by_daylight": _(
                        "Enter the latitude and longitude of {venue} under Set-up first."
                    ).format(venue=self.venue)
                }
            )

    def local(self, instant: datetime) -> datetime:
        """`instant` on this venue's clock."""
        return instant.astimezone(self.venue.tz)
