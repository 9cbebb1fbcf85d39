"""The store room's own figures: one row. What print disagrees on, each studio sets for itself."""

from fractions import Fraction
from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from plates.chemistry.bath.care import BathLimits
from plates.chemistry.bath.drag_out import CarryOff
from plates.chemistry.bath.strength import Strength
from plates.chemistry.hazards.cyanide import Cyanide
from plates.chemistry.values import ChemistryValueError
from plates.common.words import translated

MILLION = 1_000_000


def figure(
    default: int, words: Any, least: int = 0, most: int = MILLION
) -> "models.PositiveIntegerField[int, int]":
    return models.PositiveIntegerField(
        default=default, help_text=words, validators=[MinValueValidator(least), MaxValueValidator(most)]
    )


class StoreRoom(models.Model):
    """Limits of the silver bath, what plates carry off, how far ahead is bought, and whether cyanide is allowed.

    Strengths are milligrams in a litre (90 g/L is 90 000), pH hundredths, carried-off figures nanolitres and nanograms
    for each square centimetre of plate.
    """

    target_mg_l = figure(90_000, _("Strength to aim at, in mg/L: 90000 is 90 g/L."), 1)
    warn_below_mg_l = figure(80_000, _("Below this the bath is to be strengthened soon."))
    stop_below_mg_l = figure(70_000, _("Below this no plate is sensitised."))
    ph_least_hundredths = figure(350, _("More acid than this is too acid; 350 is pH 3.5."), 0, 1400)
    ph_most_hundredths = figure(500, _("Less acid than this and plates may fog."), 0, 1400)
    plates_to_filter = figure(25, _("Filter after so many plates of 4×5 inches."), 1, 10_000)
    plates_to_sun = figure(100, _("Rest and sun after so many plates of 4×5 inches."), 1, 10_000)
    plates_to_test = figure(15, _("Test after so many plates of 4×5 inches."), 1, 10_000)
    clinging_nl_cm2 = figure(14_000, _("Bath that clings to each cm², in nanolitres: 14000 is 0.014 mL."))
    film_ng_cm2 = figure(120_000, _("Silver nitrate that the film takes for each cm², in nanograms."))
    left_nl_cm2 = figure(5_812, _("Alcohol and ether left in the bath for each cm², in nanolitres."))
    ether_months = figure(6, _("Opened ether is tested or thrown away after so many months."), 1, 12)
    weeks_ahead = figure(4, _("Buy for the work that is booked in so many weeks."), 1, 52)
    fire_limit_ml = models.PositiveIntegerField(
        _("most ether and alcohol to keep (mL)"),
        null=True,
        blank=True,
        validators=[MaxValueValidator(MILLION)],
        help_text=_(
            "What your fire code or insurer allows where you work: no figure is given here, look it up."
        ),
    )
    cyanide_on = models.BooleanField(
        _("cyanide allowed in the studio"),
        default=False,
        help_text=_(
            "Cyanide kills. With any acid, and the iron developer is acid, it gives off a deadly gas. Leave it off and"
            " fix with hypo."
        ),
    )

    class Meta:
        verbose_name_plural = "store room"
        constraints = [
            models.CheckConstraint(name="store_room_one_row", condition=Q(id=1)),
            models.CheckConstraint(
                name="store_room_strengths",
                condition=Q(stop_below_mg_l__lte=F("warn_below_mg_l"), warn_below_mg_l__lte=F("target_mg_l")),
                violation_error_message=_("Stop must not lie above warn, nor warn above the target."),
            ),
            models.CheckConstraint(
                name="store_room_acidity",
                condition=Q(ph_least_hundredths__lte=F("ph_most_hundredths"), ph_most_hundredths__lte=1400),
                violation_error_message=_(
                    "The lower pH must not lie above the upper one, nor that above 14."
                ),
            ),
        ]

    def __str__(self) -> str:
        return "store room"

    def clean(self) -> None:
        try:
            self.limits()
            self.carry_off()
        except ChemistryValueError as error:
            raise ValidationError(translated(error)) from error

    def limits(self) -> BathLimits:
        """The limits of a bath as the chemistry knows them."""
        target, warn, stop = (
            Strength(Fraction(value, 1000))
            for value in (self.target_mg_l, self.warn_below_mg_l, self.stop_below_mg_l)
        )
        return BathLimits(
            target=target,
            warn_below=warn,
            stop_below=stop,
            ph_least=Fraction(self.ph_least_hundredths, 100),
            ph_most=Fraction(self.ph_most_hundredths, 100),
            plates_to_filter=self.plates_to_filter,
            plates_to_sun=self.plates_to_sun,
            plates_to_test=self.plates_to_test,
        )

    def carry_off(self) -> CarryOff:
        """What each cm² of plate takes from a bath, as the chemistry knows it."""
        return CarryOff(
            clinging_ml=Fraction(self.clinging_nl_cm2, MILLION),
            film_grams=Fraction(self.film_ng_cm2, 1000 * MILLION),
            left_ml=Fraction(self.left_nl_cm2, MILLION),
        )

    def cyanide(self, *, away: bool = False) -> Cyanide:
        """Whether cyanide may be worked with; never away from the studio."""
        return Cyanide(switched_on=self.cyanide_on is True, away=away)
