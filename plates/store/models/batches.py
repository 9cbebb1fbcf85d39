"""Batches of solutions: what was mixed, from what, from when to when it is good, and how much of it is left.

Volumes are whole microlitres (1 mL is 1000). What was mixed is never changed; what happens to it is an event.
"""

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _


class Solution(models.TextChoices):
    """The kinds of solutions, by the words of `chemistry.recipes.Kind`."""

    COLLODION = "collodion", _("Collodion")
    BATH = "bath", _("Silver bath")
    DEVELOPER = "developer", _("Developer")
    FIXER = "fixer", _("Fixer")
    VARNISH = "varnish", _("Varnish")


class Ended(models.TextChoices):
    """Why a batch is no more."""

    USED_UP = "used_up", _("Used up")
    DISCARDED = "discarded", _("To the waste")


class OwnRecipe(models.Model):
    """A recipe of the studio's own. `lines` as `chemistry.written.lines_from` reads them, amounts as written."""

    name = models.CharField(max_length=80, unique=True)
    kind = models.CharField(max_length=10, choices=Solution)
    makes_ul = models.PositiveBigIntegerField(
        null=True, blank=True, help_text=_("Microlitres that it makes; empty: its liquids added up.")
    )
    lines = models.JSONField()
    notes = models.CharField(max_length=500, blank=True)
    kept = models.BooleanField(default=True, help_text=_("Offered when a batch is mixed."))

    class Meta:
        ordering = ["kind", "name"]
        constraints = [
            models.CheckConstraint(
                name="own_recipe_makes_something",
                condition=Q(makes_ul__isnull=True) | Q(makes_ul__gt=0),
                violation_error_message=_("A recipe makes more than nothing."),
            )
        ]

    def __str__(self) -> str:
        return self.name


class Batch(models.Model):
    """One lot of a solution that was mixed or bought.

    `contents` are the quantities that went in, as written down then (see `chemistry.written`); `recipe_key` names a
    printed recipe and is empty for any other. Days are dates at the studio. A bath has no last day; it is kept up.
    """

    kind = models.CharField(max_length=10, choices=Solution)
    label = models.CharField(
        max_length=40, unique=True, help_text=_("What stands on the bottle, for example C 14.")
    )
    recipe_key = models.CharField(max_length=60, blank=True)
    recipe_name = models.CharField(max_length=120, blank=True)
    contents = models.JSONField(default=list)
    made_ul = models.PositiveBigIntegerField(_("volume made (microlitres)"))
    silver_mg = models.PositiveBigIntegerField(
        _("silver nitrate (mg)"),
        null=True,
        blank=True,
        help_text=_("In a bath when it was made, if it is known."),
    )
    mixed_at = models.DateTimeField()
    mixed_on = models.DateField()
    mixed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    ripe_from = models.DateField()
    best_before = models.DateField(
        null=True, blank=True, help_text=_("The first day on which it is past its best.")
    )
    opened_on = models.DateField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_why = models.CharField(max_length=10, choices=Ended, blank=True)
    note = models.CharField(max_length=500, blank=True)

    class Meta:
        ordering = ["-mixed_at", "-id"]
        verbose_name_plural = "batches"
        constraints = [
            models.CheckConstraint(
                name="batch_has_volume",
                condition=Q(made_ul__gt=0),
                violation_error_message=_("A batch is more than nothing: say what volume was made."),
            ),
            models.CheckConstraint(
                name="batch_days_in_order",
                condition=Q(ripe_from__gte=F("mixed_on"))
                & (Q(best_before__isnull=True) | Q(best_before__gt=F("ripe_from"))),
                violation_error_message=_(
                    "A batch is mixed first, then ripe, then past its best: look at the days."
                ),
            ),
            models.CheckConstraint(
                name="batch_opened_after_mixing",
                condition=Q(opened_on__isnull=True) | Q(opened_on__gte=F("mixed_on")),
                violation_error_message=_("A batch is opened on the day it was mixed or later."),
            ),
            models.CheckConstraint(
                name="batch_silver_of_a_bath",
                condition=Q(silver_mg__isnull=True) | Q(kind="bath"),
                violation_error_message=_("Only a silver bath is made with silver nitrate."),
            ),
            models.CheckConstraint(
                name="batch_end_has_reason",
                condition=(Q(ended_at__isnull=True) & Q(ended_why=""))
                | (Q(ended_at__isnull=False, ended_at__gte=F("mixed_at")) & ~Q(ended_why="")),
                violation_error_message=_(
                    "A batch ends after it was mixed, with a reason, and only then has one."
                ),
            ),
        ]

    def __str__(self) -> str:
        return self.label


class BatchEvent(models.Model):
    """Something taken from a batch, put to it, or measured in the bottle: never changed, only added to.

    What is left is the newest count, less what was taken and with what was added after it.
    """

    class Kind(models.TextChoices):
        TAKEN = "taken", _("Taken out")
        ADDED = "added", _("Put to it")
        COUNTED = "counted", _("Measured in the bottle")

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="events")
    kind = models.CharField(max_length=10, choices=Kind)
    amount_ul = models.PositiveBigIntegerField(_("volume (microlitres)"))
    at = models.DateTimeField()
    operator = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+"
    )
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["at", "id"]
        indexes = [models.Index(fields=["batch", "at"], name="batch_event_in_time")]
        constraints = [
            models.CheckConstraint(
                name="batch_event_moves_something",
                condition=Q(kind="counted") | Q(amount_ul__gt=0),
                violation_error_message=_("Nothing was taken or added: only a count may find nothing."),
            )
        ]

    def __str__(self) -> str:
        return f"{self.batch_id} {self.kind} {self.amount_ul} µL"
