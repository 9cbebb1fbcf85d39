"""Silver baths: what was read in them, and what was done to them. Both are only ever added to.

A check that comes out neither true nor false lets a row pass, so the conditions below ask for NULL by name.
"""

from django.conf import settings
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from plates.bench.models import Bench
from plates.store.models.batches import Batch


class BathReading(models.Model):
    """What somebody measured in a bath: by float, by titration, by acidity, by volume; at least one of them.

    Whole numbers: specific gravity in ten-thousandths, tenths of a degree, tenths of a grain, microlitres, thousandths
    of a mole a litre, hundredths of a pH.
    """

    class Scale(models.TextChoices):
        TWENTY = "20/20", _("20 °C against water at 20 °C")
        SIXTY_F = "60F/60F", _("60 °F against water at 60 °F")
        FOUR = "20/4", _("20 °C against water at 4 °C (g/mL)")

    class Ounce(models.TextChoices):
        US = "us_ounce", _("US fluid ounce")
        IMPERIAL = "imperial_ounce", _("imperial fluid ounce")

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="readings")
    at = models.DateTimeField()
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    gravity_e4 = models.PositiveIntegerField(_("specific gravity (ten-thousandths)"), null=True)
    scale = models.CharField(max_length=8, choices=Scale, blank=True)
    celsius_tenths = models.PositiveSmallIntegerField(null=True)
    grains_tenths = models.PositiveIntegerField(_("grains to the ounce (tenths)"), null=True)
    ounce = models.CharField(max_length=16, choices=Ounce, blank=True)
    sample_ul = models.PositiveIntegerField(null=True)
    titrant_ul = models.PositiveIntegerField(null=True)
    titrant_mmol_l = models.PositiveIntegerField(null=True)
    ph_hundredths = models.PositiveSmallIntegerField(null=True)
    volume_ul = models.PositiveBigIntegerField(null=True)
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["at", "id"]
        indexes = [models.Index(fields=["batch", "at"], name="bath_reading_in_time")]
        constraints = [
            models.CheckConstraint(
                name="bath_reading_reads_something",
                condition=Q(gravity_e4__isnull=False)
                | Q(grains_tenths__isnull=False)
                | Q(titrant_ul__isnull=False)
                | Q(ph_hundredths__isnull=False)
                | Q(volume_ul__isnull=False),
                violation_error_message=_("A reading reads something: fill in at least one measurement."),
            ),
            models.CheckConstraint(
                name="bath_reading_float_whole",
                condition=Q(gravity_e4__isnull=True, scale="", celsius_tenths__isnull=True)
                | (
                    Q(gravity_e4__isnull=False, gravity_e4__gt=0, celsius_tenths__isnull=False) & ~Q(scale="")
                ),
                violation_error_message=_("A hydrometer needs its scale and the warmth of the bath with it."),
            ),
            models.CheckConstraint(
                name="bath_reading_grains_whole",
                condition=Q(grains_tenths__isnull=True, ounce="")
                | (Q(grains_tenths__isnull=False) & ~Q(ounce="")),
                violation_error_message=_("Grains to the ounce need which ounce, US or imperial."),
            ),
            models.CheckConstraint(
                name="bath_reading_titration_whole",
                condition=Q(sample_ul__isnull=True, titrant_ul__isnull=True, titrant_mmol_l__isnull=True)
                | Q(
                    sample_ul__isnull=False,
                    sample_ul__gt=0,
                    titrant_ul__isnull=False,
                    titrant_mmol_l__isnull=False,
                    titrant_mmol_l__gt=0,
                ),
                violation_error_message=_(
                    "A titration needs the sample, the thiocyanate used and how strong it is."
                ),
            ),
            models.CheckConstraint(
                name="bath_reading_possible",
                condition=(Q(ph_hundredths__isnull=True) | Q(ph_hundredths__lte=1400))
                & (Q(volume_ul__isnull=True) | Q(volume_ul__gt=0)),
                violation_error_message=_("A pH lies from 0 to 14, and a bath is more than nothing."),
            ),
        ]

    def __str__(self) -> str:
        return f"reading of {self.batch_id} at {self.at:%Y-%m-%d %H:%M} UTC"


class BathCare(models.Model):
    """What was done to a bath. Amounts are milligrams of dry salt, microlitres of anything poured in.

    `IN_USE` with its bench says where it stands from then on, `RESTED` that no plate goes into it until it is in use
    again.
    """

    class Kind(models.TextChoices):
        IN_USE = "in_use", _("Put to use at the bench")
        RESTED = "rested", _("Taken out of use, rested")
        FILTERED = "filtered", _("Filtered")
        SUNNED = "sunned", _("Sunned")
        SALT = "salt", _("Silver nitrate added, dry")
        STOCK = "stock", _("Stock solution added")
        WATER = "water", _("Distilled water added")
        ACID = "acid", _("Acid added")
        ALKALI = "alkali", _("Bicarbonate added")
        POURED_OFF = "poured_off", _("Bath poured off")

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="care")
    at = models.DateTimeField()
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    kind = models.CharField(max_length=12, choices=Kind)
    bench = models.ForeignKey(Bench, null=True, on_delete=models.PROTECT, related_name="+")
    salt_mg = models.PositiveBigIntegerField(null=True)
    poured_ul = models.PositiveBigIntegerField(null=True)
    stock_mg_l = models.PositiveIntegerField(null=True)
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["at", "id"]
        verbose_name_plural = "bath care"
        indexes = [models.Index(fields=["batch", "at"], name="bath_care_in_time")]
        constraints = [
            models.CheckConstraint(
                name="bath_care_at_a_bench",
                condition=(Q(kind="in_use") & Q(bench__isnull=False))
                | (~Q(kind="in_use") & Q(bench__isnull=True)),
                violation_error_message=_("A bath is put to use at a bench, and only then is one named."),
            ),
            models.CheckConstraint(
                name="bath_care_salt_weighed",
                condition=(Q(kind="salt") & Q(salt_mg__isnull=False, salt_mg__gt=0))
                | (~Q(kind="salt") & Q(salt_mg__isnull=True)),
                violation_error_message=_("Dry salt is weighed: say how many grams were added."),
            ),
            models.CheckConstraint(
                name="bath_care_poured_measured",
                condition=(
                    Q(kind__in=["stock", "water", "poured_off"]) & Q(poured_ul__isnull=False, poured_ul__gt=0)
                )
                | Q(kind__in=["acid", "alkali"])
                | (
                    ~Q(kind__in=["stock", "water", "poured_off", "acid", "alkali"])
                    & Q(poured_ul__isnull=True)
                ),
                violation_error_message=_("What is poured is measured: say how many millilitres."),
            ),
            models.CheckConstraint(
                name="bath_care_stock_strength",
                condition=(Q(kind="stock") & Q(stock_mg_l__isnull=False, stock_mg_l__gt=0))
                | (~Q(kind="stock") & Q(stock_mg_l__isnull=True)),
                violation_error_message=_("A stock solution needs its strength in g/L."),
            ),
        ]

    def __str__(self) -> str:
        return f"{self.kind} of {self.batch_id} at {self.at:%Y-%m-%d %H:%M} UTC"
