"""How the studio finishes plates: the hours of drying and cure, the varnish sessions, and the days it is closed."""

from datetime import time

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _
from django_stubs_ext import StrOrPromise

from plates.finishing.forecast import FinishingError, Hours, Spread, Work

LONGEST_MINUTES = 28 * 24 * 60
EVERY_WEEKDAY = "123456"


def _minutes(name: StrOrPromise, default: int) -> "models.PositiveIntegerField[int, int]":
    return models.PositiveIntegerField(
        name, default=default, validators=[MaxValueValidator(LONGEST_MINUTES)], help_text=_("Minutes.")
    )


class Finishing(models.Model):
    """The one row of it. All numbers are planning values that each studio edits (common practice, no source)."""

    dry_least = _minutes(_("shortest drying"), 30)
    dry_usual = _minutes(_("usual drying"), 60)
    dry_most = _minutes(_("longest drying"), 240)
    cure_least = _minutes(_("shortest cure"), 720)
    cure_usual = _minutes(_("usual cure"), 1440)
    cure_most = _minutes(_("longest cure"), 4320)
    weekdays = models.CharField(
        _("days of work"),
        max_length=7,
        default=EVERY_WEEKDAY,
        help_text=_("On these plates are varnished, packed and handed over, but not on closed days."),
    )
    session_begins = models.TimeField(
        _("varnish from"), default=time(9), help_text=_("What is dry by then can be varnished that day.")
    )
    session_minutes = models.PositiveSmallIntegerField(
        _("length of it in minutes"), default=120, validators=[MaxValueValidator(720)]
    )
    session_plates = models.PositiveSmallIntegerField(
        _("plates a session"), default=12, validators=[MinValueValidator(1), MaxValueValidator(500)]
    )
    packed_at = models.TimeField(
        _("packed at"), default=time(17), help_text=_("What has cured by then can be collected that day.")
    )
    certainty = models.PositiveSmallIntegerField(
        _("certainty of a promised date (%)"),
        default=95,
        validators=[MinValueValidator(50), MaxValueValidator(99)],
        help_text=_("How many of a hundred promised dates are to be kept."),
    )

    class Meta:
        verbose_name = verbose_name_plural = _("finishing")
        constraints = [
            models.CheckConstraint(name="finishing_one_row", condition=Q(id=1)),
            models.CheckConstraint(
                name="finishing_times_in_order",
                condition=Q(dry_least__lte=F("dry_usual"), dry_usual__lte=F("dry_most"))
                & Q(cure_least__lte=F("cure_usual"), cure_usual__lte=F("cure_most")),
                violation_error_message=_(
                    "The shortest time is no longer than the usual one, nor that than the longest."
                ),
            ),
            models.CheckConstraint(
                name="finishing_certainty",
                condition=Q(certainty__range=(50, 99), session_plates__gte=1) & ~Q(weekdays=""),
                violation_error_message=_(
                    "A date is kept with 50 to 99 % certainty, on at least one day of the week, one plate a session."
                ),
            ),
        ]

    def __str__(self) -> str:
        return str(_("finishing"))

    def clean(self) -> None:
        try:
            self.hours()
            self.work()
        except FinishingError as error:
            raise ValidationError(str(error)) from error

    def hours(self) -> Hours:
        """The working week; FinishingError without a day of work."""
        return Hours(
            weekdays={int(day) for day in self.weekdays},
            begins=self.session_begins,
            minutes=self.session_minutes,
            plates=self.session_plates,
            packed_at=self.packed_at,
        )

    def work(self) -> Work:
        """Drying, cure and certainty as the outlook reckons with them; FinishingError when they are out of order."""
        return Work(
            drying=Spread(self.dry_least, self.dry_usual, self.dry_most),
            curing=Spread(self.cure_least, self.cure_usual, self.cure_most),
            certainty=self.certainty / 100,
        )


class ClosedDay(models.Model):
    """A date on which the studio does not work: nothing is varnished, packed or handed over on it."""

    on = models.DateField(_("date"), unique=True)
    why = models.CharField(_("why"), max_length=80, blank=True)

    class Meta:
        ordering = ["on"]

    def __str__(self) -> str:
        return f"{self.on} {self.why}".strip()
