"""What is bought and kept: chemicals, bare plates, cases, sleeves. Amounts are whole numbers of a small unit."""

from fractions import Fraction

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from plates.bench.models import PlateSize


class Supply(models.Model):
    """One thing that is kept in stock, in milligrams, microlitres or pieces.

    It is bought by the pack: `pack` units for `pack_cost`, in the smallest unit of the studio's currency. Never fewer
    than `least` are to be left when the booked weeks ahead are over. `pieces_a_plate` says how many go with each plate
    of its size, or of any size where none is named.
    """

    class Kind(models.TextChoices):
        CHEMICAL = "chemical", _("Chemical")
        BLANK = "blank", _("Bare plates")
        CASE = "case", _("Cases")
        SLEEVE = "sleeve", _("Sleeves")
        OTHER = "other", _("Something else")

    class Unit(models.TextChoices):
        MILLIGRAM = "mg", _("weighed (mg)")
        MICROLITRE = "ul", _("measured (µL)")
        PIECE = "piece", _("counted in pieces")

    name = models.CharField(max_length=80, unique=True)
    kind = models.CharField(max_length=10, choices=Kind)
    unit = models.CharField(max_length=6, choices=Unit)
    substance = models.CharField(
        max_length=40, blank=True, help_text=_("Its key in the table of hazards, for example ether.")
    )
    size = models.ForeignKey(
        PlateSize, null=True, blank=True, on_delete=models.PROTECT, related_name="supplies"
    )
    pieces_a_plate = models.PositiveSmallIntegerField(default=0)
    least = models.PositiveBigIntegerField(default=0, help_text=_("In mg, µL or pieces."))
    pack = models.PositiveBigIntegerField(help_text=_("In mg, µL or pieces."))
    pack_cost = models.PositiveBigIntegerField(
        null=True, blank=True, help_text=_("In the smallest unit of the currency; empty: not known.")
    )
    kept = models.BooleanField(default=True, help_text=_("Still bought and shown."))

    class Meta:
        ordering = ["kind", "name"]
        verbose_name_plural = "supplies"
        constraints = [
            models.CheckConstraint(
                name="supply_pack_holds_something",
                condition=Q(pack__gt=0),
                violation_error_message=_("A pack holds more than nothing."),
            ),
            models.CheckConstraint(
                name="supply_measured_by_kind",
                condition=(Q(kind="chemical") & Q(unit__in=["mg", "ul"]) & Q(pieces_a_plate=0))
                | (~Q(kind="chemical") & Q(unit="piece") & Q(substance="")),
                violation_error_message=_("Chemicals are weighed or measured, everything else is counted."),
            ),
            models.CheckConstraint(
                name="supply_blank_has_size",
                condition=~Q(kind="blank") | (Q(size__isnull=False) & Q(pieces_a_plate__gte=1)),
                violation_error_message=_("Bare plates are of one size, and each plate takes at least one."),
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def cost_of_one(self) -> Fraction | None:
        """Minor units of money for one mg, µL or piece, at the price of a pack; None where that is not known."""
        return None if self.pack_cost is None else Fraction(self.pack_cost, self.pack)


class SupplyEvent(models.Model):
    """Something received, used, counted or thrown away, or what was seen of one container: only ever added.

    A container is the row by which it was received; what is seen of it afterwards points there. The level is the newest
    count, with what came and less what went after it.
    """

    class Kind(models.TextChoices):
        RECEIVED = "received", _("Received")
        USED = "used", _("Used")
        COUNTED = "counted", _("Counted")
        DISCARDED = "discarded", _("To the waste")
        OPENED = "opened", _("Container opened")
        TESTED = "tested", _("Tested for peroxide")
        UNSOUND = "unsound", _("Rust, crystals or a crust seen")

    supply = models.ForeignKey(Supply, on_delete=models.PROTECT, related_name="events")
    kind = models.CharField(max_length=10, choices=Kind)
    at = models.DateTimeField()
    on = models.DateField(help_text=_("The date at the studio."))
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    amount = models.PositiveBigIntegerField(default=0, help_text=_("In mg, µL or pieces."))
    cost = models.PositiveBigIntegerField(null=True, help_text=_("Of all that was received, in minor units."))
    label = models.CharField(max_length=40, blank=True, help_text=_("What stands on the container."))
    container = models.ForeignKey("self", null=True, on_delete=models.PROTECT, related_name="seen")
    peroxide_tenths_ppm = models.PositiveIntegerField(null=True)
    batch = models.ForeignKey("plates.Batch", null=True, on_delete=models.PROTECT, related_name="taken_from")
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["at", "id"]
        indexes = [models.Index(fields=["supply", "at"], name="supply_event_in_time")]
        constraints = [
            models.CheckConstraint(
                name="supply_event_moves_something",
                condition=(Q(kind__in=["received", "used", "discarded"]) & Q(amount__gt=0))
                | Q(kind="counted")
                | (Q(kind__in=["opened", "tested", "unsound"]) & Q(amount=0)),
                violation_error_message=_("Say how much came or went; only a count may find nothing."),
            ),
            models.CheckConstraint(
                name="supply_event_seen_of_a_container",
                condition=Q(kind__in=["used", "discarded"])
                | (Q(kind__in=["opened", "tested", "unsound"]) & Q(container__isnull=False))
                | (Q(kind__in=["received", "counted"]) & Q(container__isnull=True)),
                violation_error_message=_("Say which container was opened, tested or looked at."),
            ),
            models.CheckConstraint(
                name="supply_event_test_has_finding",
                condition=(Q(kind="tested") & Q(peroxide_tenths_ppm__isnull=False))
                | (~Q(kind="tested") & Q(peroxide_tenths_ppm__isnull=True)),
                violation_error_message=_("A test for peroxide needs what was found, 0 for nothing."),
            ),
            models.CheckConstraint(
                name="supply_event_cost_of_what_came",
                condition=Q(cost__isnull=True) | Q(kind="received"),
                violation_error_message=_("Only what is received costs something."),
            ),
            models.UniqueConstraint(
                fields=["container"],
                condition=Q(kind="opened"),
                name="supply_event_opened_once",
                violation_error_message=_("This container was opened already."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.supply_id} {self.kind} {self.amount}"
