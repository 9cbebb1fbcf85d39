"""The plate ledger: every plate that was ever poured, and each thing that happened to it."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from plates.bench.models.jobs import PlateSlot
from plates.bench.models.sizes import PlateSize


class Stage(models.TextChoices):
    """Where a plate is on its way, in order; SPOILT ends it before its time."""

    POURED = "poured", _("Poured")
    SENSITISED = "sensitised", _("Sensitised")
    EXPOSED = "exposed", _("Exposed")
    DEVELOPED = "developed", _("Developed")
    FIXED = "fixed", _("Fixed")
    WASHING = "washing", _("Washing")
    DRYING = "drying", _("Drying")
    VARNISHED = "varnished", _("Varnished")
    READY = "ready", _("Ready")
    HANDED_OVER = "handed_over", _("Handed over")
    SPOILT = "spoilt", _("Spoilt")


class SpoiltReason(models.TextChoices):
    """Why a plate was given up (common practice, no source)."""

    FOGGED = "fogged", _("Fogged")
    STREAKED = "streaked", _("Streaks or comets in the film")
    LIFTED = "lifted", _("Film lifted or torn")
    DRIED = "dried", _("Dried before development")
    MOVED = "moved", _("The sitter moved")
    EXPOSURE = "exposure", _("Exposure misjudged")
    DAMAGED = "damaged", _("Scratched or dropped")
    OTHER = "other", _("Something else")
    MISTAKE = "mistake", _("Never poured: a wrong press")


class PlateNumber(models.Model):
    """The one row that gives out running plate numbers, inside the pouring transaction."""

    last = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = [models.CheckConstraint(name="plate_number_one_row", condition=Q(id=1))]

    def __str__(self) -> str:
        return f"last plate number {self.last}"


class Plate(models.Model):
    """One physical plate. `stage` repeats its newest event and is changed only by the service that appends it."""

    number = models.PositiveIntegerField(unique=True)
    slot = models.ForeignKey(PlateSlot, on_delete=models.PROTECT, related_name="plates")
    size = models.ForeignKey(PlateSize, on_delete=models.PROTECT, related_name="+")
    stage = models.CharField(max_length=12, choices=Stage, default=Stage.POURED)
    stage_at = models.DateTimeField()
    spoilt_reason = models.CharField(max_length=12, choices=SpoiltReason, blank=True)

    class Meta:
        ordering = ["number"]
        constraints = [
            models.UniqueConstraint(
                fields=["slot"],
                condition=~Q(stage="spoilt"),
                name="plate_one_live_per_slot",
                violation_error_message="A plate for this place in the order is already being made.",
            ),
            models.CheckConstraint(
                name="plate_spoilt_has_reason",
                condition=(Q(stage="spoilt") & ~Q(spoilt_reason=""))
                | (~Q(stage="spoilt") & Q(spoilt_reason="")),
                violation_error_message="A spoilt plate needs a reason, and only a spoilt plate has one.",
            ),
        ]

    def __str__(self) -> str:
        return f"plate {self.number}"


class PlateEventQuerySet(models.QuerySet["PlateEvent"]):
    def valid(self) -> "PlateEventQuerySet":
        """What holds of what happened: presses taken back, and their taking back, left out."""
        return self.filter(undoes__isnull=True, undone_by__isnull=True)


class PlateEvent(models.Model):
    """Something that happened to a plate: never changed, only added to.

    A press taken back is another event: it `undoes` the newest one and brings the plate back to the stage before.
    `turn` counts how often the stage was taken back before, so that each stage is reached once a turn. `press` is the
    key under which a phone sends a press, as often as it takes: the same key is the same press.
    """

    plate = models.ForeignKey(Plate, on_delete=models.PROTECT, related_name="events")
    stage = models.CharField(max_length=12, choices=Stage)
    at = models.DateTimeField()
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    note = models.CharField(max_length=200, blank=True)
    undoes = models.OneToOneField("self", null=True, on_delete=models.PROTECT, related_name="undone_by")
    turn = models.PositiveSmallIntegerField(default=0)
    press = models.UUIDField(null=True, unique=True)

    objects = PlateEventQuerySet.as_manager()

    class Meta:
        ordering = ["id"]
        constraints = [
            models.UniqueConstraint(
                fields=["plate", "stage", "turn"],
                condition=Q(undoes__isnull=True),
                name="plate_event_once",
                violation_error_message="This plate has already been through that stage.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.plate_id} {self.stage} at {self.at:%Y-%m-%d %H:%M} UTC"
