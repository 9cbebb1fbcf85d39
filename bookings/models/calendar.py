"""Venues, sitting days and sittings."""

from datetime import datetime
from zoneinfo import ZoneInfo, available_timezones

from django.core.exceptions import ValidationError
from django.db import models

from bookings.models.orders import Order
from plates.models import BenchDay, BenchJob


def validate_zone(name: str) -> None:
    if name not in available_timezones():
        raise ValidationError("Use a zone of the tz database, for example Europe/Lisbon.")


class Venue(models.Model):
    """A place where sittings are held: the studio at home, or a pop-up with a travelling dark tent."""

    name = models.CharField(max_length=80, unique=True)
    address = models.TextField(max_length=300)
    zone = models.CharField("time zone", max_length=60, validators=[validate_zone])
    finding_it = models.TextField(
        max_length=500, blank=True, help_text="How to find the door; told to clients."
    )

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name

    @property
    def tz(self) -> ZoneInfo:
        return ZoneInfo(self.zone)


class SittingDay(models.Model):
    """A day on which clients may sit: a bench's day at a venue."""

    venue = models.ForeignKey(Venue, on_delete=models.PROTECT, related_name="days")
    bench_day = models.OneToOneField(BenchDay, on_delete=models.PROTECT, related_name="+")
    published = models.BooleanField(default=True, help_text="Clients can book it.")

    class Meta:
        ordering = ["bench_day__on", "id"]

    def __str__(self) -> str:
        return f"{self.venue}, {self.bench_day.on:%d %B %Y}"

    def local(self, instant: datetime) -> datetime:
        """`instant` on this venue's clock."""
        return instant.astimezone(self.venue.tz)


class Sitting(models.Model):
    """The promise made to a client: this order is photographed on this day, as its bench job says."""

    order = models.OneToOneField(Order, on_delete=models.PROTECT, related_name="sitting")
    day = models.ForeignKey(SittingDay, on_delete=models.PROTECT, related_name="sittings")
    bench_job = models.OneToOneField(BenchJob, on_delete=models.PROTECT, related_name="+")
    cautions_read_at = models.DateTimeField(null=True)
    calendar_sequence = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ["bench_job__starts_at", "id"]

    def __str__(self) -> str:
        return f"sitting of {self.order}"
