"""By what the chemistry limits the diary of a bench. Each studio sets it; none of the defaults is printed anywhere."""

from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from plates import capacity


class BathRule(models.TextChoices):
    """What a silver bath that wants care does to the diary."""

    BLOCKS = "blocks", _("no further plates are promised")
    SLOWS = "slows", _("plates stay in it longer")
    NOTHING = "nothing", _("nothing")


def limited_by(words: Any, *, default: bool = False) -> "models.BooleanField[bool, bool]":
    return models.BooleanField(
        words,
        default=default,
        help_text=_("Once a batch of it is written down, no more plates are promised than it is enough for."),
    )


class ChemistryRules(models.Model):
    """The part of a bench that says which solutions limit its days, and when its bath slows or blocks them.

    Collodion ripens, so it has to be there in time; what is mixed the day before limits nothing unless it is asked to.
    """

    limited_by_collodion = limited_by(_("collodion limits the diary"), default=True)
    limited_by_developer = limited_by(_("developer limits the diary"))
    limited_by_fixer = limited_by(_("fixer limits the diary"))
    limited_by_varnish = limited_by(_("varnish limits the diary"))
    spares_sure = models.PositiveSmallIntegerField(
        _("sure of the spoilt plates (%)"),
        default=90,
        validators=[MinValueValidator(50), MaxValueValidator(99)],
        help_text=_(
            "So much is kept back for plates made again that it is enough on so many days in a hundred."
        ),
    )
    weak_bath = models.CharField(
        _("a bath below its least strength"),
        max_length=8,
        choices=BathRule,
        default=BathRule.BLOCKS,
        help_text=_("From the day on which the plates booked until then have made it too weak."),
    )
    unsunned_bath = models.CharField(
        _("a bath due to be rested in light"),
        max_length=8,
        choices=BathRule,
        default=BathRule.NOTHING,
        help_text=_("From the day on which the plates booked until then have made it due."),
    )
    slow_minutes = models.PositiveSmallIntegerField(
        _("longer in a slow bath (minutes)"), default=2, validators=[MaxValueValidator(60)]
    )
    rest_after_plates = models.PositiveSmallIntegerField(
        _("the bath rests after so many plates"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(1000)],
        help_text=_("Empty: it needs no rest within a day."),
    )
    rest_minutes = models.PositiveSmallIntegerField(
        _("length of that rest (minutes)"),
        default=20,
        validators=[MinValueValidator(1), MaxValueValidator(1440)],
    )

    class Meta:
        abstract = True
        constraints = (
            models.CheckConstraint(
                name="bench_spares_sure",
                condition=Q(spares_sure__gte=1, spares_sure__lte=99),
                violation_error_message=_("Be sure of the spoilt plates on 1 to 99 days in a hundred."),
            ),
            models.CheckConstraint(
                name="bench_bath_rests",
                condition=Q(rest_minutes__gte=1)
                & (Q(rest_after_plates__isnull=True) | Q(rest_after_plates__gte=1)),
                violation_error_message=_(
                    "A rest comes after one plate or more, and lasts a minute or more."
                ),
            ),
        )

    @property
    def bath_rest(self) -> capacity.BathRest | None:
        """The pauses of the silver bath as the capacity engine knows them."""
        if self.rest_after_plates is None:
            return None
        return capacity.BathRest(self.rest_after_plates, self.rest_minutes)

    @property
    def minds_its_bath(self) -> bool:
        """Whether the state of the silver bath does anything to the diary."""
        return (
            BathRule.NOTHING not in (self.weak_bath, self.unsunned_bath)
            or self.weak_bath != self.unsunned_bath
        )

    def limiting(self) -> tuple[str, ...]:
        """The kinds of solutions that limit this bench, by the words of `Solution`."""
        kinds = ("collodion", "developer", "fixer", "varnish")
        return tuple(kind for kind in kinds if getattr(self, f"limited_by_{kind}"))
