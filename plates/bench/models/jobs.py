"""The bench job: work promised on a bench. It is the one link between the diary and the plates."""

from datetime import datetime

from django.db import models
from django.db.models import F, Q

from plates import capacity
from plates.bench.models.bench import BenchDay
from plates.bench.models.sizes import PlateSize


class BenchJobQuerySet(models.QuerySet["BenchJob"]):
    def promised(self, now: datetime) -> "BenchJobQuerySet":
        """Jobs that take room on the bench at `now`: confirmed, begun, or held and not yet lapsed."""
        firm = Q(confirmed_at__isnull=False) | Q(begun_at__isnull=False)
        return self.filter(firm | Q(held_until__gt=now), released_at__isnull=True)


class BenchJob(models.Model):
    """Plates promised from a start time, with the minute-by-minute plan that proves they can be made.

    A plate that has to be made again takes hands, bath and wash anew: it is a job of its own, `retake_of` the
    spoilt plate, and has no slots, because the new plate is poured for the slot of the old one.
    """

    day = models.ForeignKey(BenchDay, on_delete=models.PROTECT, related_name="jobs")
    starts_at = models.DateTimeField("promised start")
    held_until = models.DateTimeField()
    confirmed_at = models.DateTimeField(null=True, blank=True)
    begun_at = models.DateTimeField("first plate poured", null=True, blank=True)
    released_at = models.DateTimeField(null=True, blank=True)
    expected_at = models.DateTimeField(
        null=True, blank=True, help_text="When it will really begin, on a day that runs late."
    )
    retake_of = models.OneToOneField(
        "plates.Plate", null=True, blank=True, on_delete=models.PROTECT, related_name="retake"
    )
    plan = models.JSONField(
        help_text="Minutes from the opening of the day, as the capacity engine planned them."
    )

    objects = BenchJobQuerySet.as_manager()

    class Meta:
        ordering = ["starts_at", "id"]
        indexes = [models.Index(fields=["day", "starts_at"])]
        constraints = [
            models.CheckConstraint(
                name="bench_job_held_to_start",
                condition=Q(held_until__lte=F("starts_at")),
                violation_error_message="A place is held until its start at the latest.",
            ),
            models.CheckConstraint(
                name="bench_job_begun_is_kept",
                condition=Q(begun_at__isnull=True) | Q(released_at__isnull=True),
                violation_error_message="A sitting that has begun can no longer be given back.",
            ),
        ]

    def __str__(self) -> str:
        return f"job {self.pk} at {self.starts_at:%Y-%m-%d %H:%M} UTC"

    def counts(self, now: datetime) -> bool:
        """Whether this job takes room on the bench at `now`."""
        firm = self.confirmed_at is not None or self.begun_at is not None
        return self.released_at is None and (firm or self.held_until > now)

    def sizes(self) -> list[PlateSize]:
        """The plates it makes, in order; needs `slots__size` and `retake_of__size` at hand."""
        if self.retake_of is not None:
            return [self.retake_of.size]
        return [slot.size for slot in self.slots.all()]

    def as_sitting(self) -> capacity.Sitting:
        """What it promises, as the capacity engine knows it; needs `day` at hand, and what `sizes` needs."""
        plates = tuple(size.as_capacity() for size in self.sizes())
        return capacity.Sitting(start=self.day.minute(self.starts_at), plates=plates)

    def as_booked(self, now: datetime | None = None) -> capacity.Booked:
        """The promise with its plan; what has begun, or should have by `now`, is never planned anew."""
        plan = capacity.SittingPlan.from_json(self.plan)
        begun = self.begun_at is not None or (now is not None and self.starts_at <= now)
        return capacity.Booked(self.as_sitting(), plan, begun=begun)


class PlateSlot(models.Model):
    """One plate that a job promises. A spoilt plate is made again for the same slot."""

    job = models.ForeignKey(BenchJob, on_delete=models.CASCADE, related_name="slots")
    position = models.PositiveSmallIntegerField()
    size = models.ForeignKey(PlateSize, on_delete=models.PROTECT, related_name="+")
    given_up_at = models.DateTimeField(
        null=True,
        blank=True,
        help_text="The sitting ended without this plate; none is poured for it any more.",
    )

    class Meta:
        ordering = ["job_id", "position"]
        constraints = [models.UniqueConstraint(fields=["job", "position"], name="plate_slot_once")]

    def __str__(self) -> str:
        return f"{self.size} {self.position} of job {self.job_id}"
