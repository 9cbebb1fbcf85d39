"""The terms that things are sold on. Money is whole minor units, shares are hundredths of a per cent."""

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.money import CancellationRule, DepositRule, MovingRule


class NoPlate(models.TextChoices):
    """What becomes of a sitting that gave no plate fit to be handed over."""

    REFUND = "refund", _("Everything is paid back")
    REBOOK = "rebook", _("Another sitting without charge")
    CHOICE = "choice", _("The client chooses: paid back, or another sitting without charge")


class Terms(models.Model):
    """What a client agrees to when booking: the deposit, and what a cancellation costs. Never edited once agreed to."""

    version = models.CharField(max_length=20, unique=True)
    venue = models.ForeignKey(
        "bookings.Venue",
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="Empty: at every venue that has no terms of its own.",
    )
    holds_from = models.DateField()
    deposit_share_bp = models.PositiveSmallIntegerField(
        "deposit share (hundredths of a per cent)",
        null=True,
        blank=True,
        validators=[MaxValueValidator(10000)],
    )
    deposit_fixed = models.PositiveIntegerField(
        null=True, blank=True, help_text="In the smallest unit (cents)."
    )
    free_until_hours = models.PositiveSmallIntegerField(default=48)
    kept_share_bp = models.PositiveSmallIntegerField(
        "share of the deposit kept after that", default=10000, validators=[MaxValueValidator(10000)]
    )
    late_move_bp = models.PositiveSmallIntegerField(
        "price of a late change of time",
        default=0,
        validators=[MaxValueValidator(10000)],
        help_text="As a share of the deposit (hundredths of a per cent), after the free time; 0: always free.",
    )
    no_plate = models.CharField(
        "without a plate",
        max_length=8,
        choices=NoPlate,
        default=NoPlate.CHOICE,
        help_text="What becomes of a sitting that gave no plate fit to be handed over.",
    )
    kept_days = models.PositiveSmallIntegerField(
        _("plates are kept for (days)"),
        default=90,
        validators=[MinValueValidator(1)],
        help_text=_("So long after the letter that they are ready; then the client is reminded once."),
    )
    text = models.TextField(max_length=4000)

    class Meta:
        verbose_name_plural = "terms"
        ordering = ["-holds_from", "-id"]
        constraints = [
            models.CheckConstraint(
                name="terms_one_deposit_rule",
                condition=Q(deposit_share_bp__isnull=False, deposit_fixed__isnull=True)
                | Q(deposit_share_bp__isnull=True, deposit_fixed__isnull=False),
                violation_error_message="Give the deposit either as a share or as a fixed sum.",
            )
        ]

    def __str__(self) -> str:
        return self.version

    def deposit_rule(self) -> DepositRule:
        return DepositRule(share_bp=self.deposit_share_bp, fixed=self.deposit_fixed)

    def cancellation_rule(self) -> CancellationRule:
        return CancellationRule(free_hours=self.free_until_hours, kept_bp=self.kept_share_bp)

    def moving_rule(self) -> MovingRule:
        return MovingRule(free_hours=self.free_until_hours, price_bp=self.late_move_bp)
