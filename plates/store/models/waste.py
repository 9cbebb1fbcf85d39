"""Waste that was kept, and what became of it. Containers hold one kind each; the log is only ever added to."""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from plates.store.models.batches import Batch


class WasteContainer(models.Model):
    """A marked container for waste of one kind: kinds that must not meet never share one."""

    class Kind(models.TextChoices):
        SILVER = "silver", _("Silver: fixer, rinses, residues of the bath")
        SOLVENT = "solvent", _("Ether, alcohol, collodion, varnish")
        CADMIUM = "cadmium", _("Cadmium")
        CYANIDE = "cyanide", _("Cyanide")
        ACID = "acid", _("Acids")
        OTHER = "other", _("Something else")

    label = models.CharField(
        max_length=40, unique=True, help_text=_("What stands on the container, for example W 3.")
    )
    kind = models.CharField(max_length=8, choices=Kind)
    kept = models.BooleanField(default=True, help_text=_("Still in the studio."))

    class Meta:
        ordering = ["label"]

    def __str__(self) -> str:
        return self.label


class WasteEntry(models.Model):
    """Waste that was put into a container, or taken away from it by a service that is licensed for it."""

    class Kind(models.TextChoices):
        KEPT = "kept", _("Put into it")
        COLLECTED = "collected", _("Collected")

    container = models.ForeignKey(WasteContainer, on_delete=models.PROTECT, related_name="entries")
    kind = models.CharField(max_length=10, choices=Kind)
    amount_ul = models.PositiveBigIntegerField(_("volume (microlitres)"))
    on = models.DateField(help_text=_("The date at the studio."))
    at = models.DateTimeField(help_text=_("When it was written down."))
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    what = models.CharField(max_length=80, blank=True, help_text=_("What it is, for example used fixer."))
    service = models.CharField(max_length=120, blank=True, help_text=_("The licensed service that took it."))
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["on", "id"]
        verbose_name_plural = "waste entries"
        constraints = [
            models.CheckConstraint(
                name="waste_entry_moves_something",
                condition=Q(amount_ul__gt=0),
                violation_error_message=_("Nothing was kept or collected: say how much."),
            ),
            models.CheckConstraint(
                name="waste_entry_says_what_or_who",
                condition=(Q(kind="kept", service="") & ~Q(what="")) | (Q(kind="collected") & ~Q(service="")),
                violation_error_message=_("Say what was kept, or which licensed service collected it."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.container_id} {self.kind} {self.amount_ul} µL"


class ClearingTime(models.Model):
    """Seconds until a plate was clear in this fixer; the first one noted counts as that of the fresh fixer."""

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="clearing_times")
    seconds = models.PositiveSmallIntegerField()
    at = models.DateTimeField()
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )

    class Meta:
        ordering = ["at", "id"]
        constraints = [
            models.CheckConstraint(
                name="clearing_takes_time",
                condition=Q(seconds__gte=1, seconds__lte=3600),
                violation_error_message=_("A plate clears in a second or more, and within an hour."),
            )
        ]

    def __str__(self) -> str:
        return f"{self.batch_id} clears in {self.seconds} s"
