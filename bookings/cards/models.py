"""Cards paid online: where somebody was sent to pay, and what the card service told us. Never a number of a card."""

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.orders.models import Order
from bookings.payments.models import Payment
from bookings.vouchers.models import Voucher


class CardCheckout(models.Model):
    """One page of the card service that somebody was sent to, for one sum."""

    order = models.ForeignKey(Order, null=True, on_delete=models.PROTECT, related_name="card_checkouts")
    voucher = models.ForeignKey(Voucher, null=True, on_delete=models.PROTECT, related_name="card_checkouts")
    session = models.CharField(max_length=255, unique=True, help_text="The card service's name for the page.")
    address = models.URLField(max_length=4000)
    amount = models.PositiveIntegerField()
    currency = models.CharField(max_length=3)
    opened_at = models.DateTimeField()
    open_until = models.DateTimeField()
    ask_at = models.DateTimeField(
        null=True,
        db_index=True,
        help_text="When to ask the card service, should it not have told; empty for never.",
    )
    money = models.CharField(
        max_length=255,
        blank=True,
        help_text="The card service's name for the payment that came by it: what is given back is told under it.",
    )

    class Meta:
        ordering = ["id"]
        constraints = [
            models.CheckConstraint(
                name="card_checkout_for_one_thing",
                condition=Q(order__isnull=False, voucher__isnull=True)
                | Q(order__isnull=True, voucher__isnull=False),
                violation_error_message="A card pays for an order or for a voucher: one of them.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.amount} {self.currency} for {self.order or self.voucher}"


class Outcome(models.TextChoices):
    PAID = "paid", _("Entered in the ledger")
    RETURNED = "returned", _("Entered as given back")
    KNOWN = "known", _("Known already")
    NOTED = "noted", _("Nothing to do")
    LOOK = "look", _("To be looked at")


class CardNotice(models.Model):
    """One signed message of the card service, or its answer to us, kept once whatever it is worth.

    Its facts stand here too, so that one which came before what it is about can be entered when that has come.
    """

    event = models.CharField(max_length=255, unique=True)
    kind = models.CharField(max_length=80)
    session = models.CharField(max_length=255, blank=True)
    money = models.CharField(max_length=255, blank=True)
    refund = models.CharField(max_length=255, blank=True)
    amount = models.IntegerField(null=True, help_text="In the smallest unit (cents).")
    currency = models.CharField(max_length=255, blank=True)
    happened_at = models.DateTimeField()
    received_at = models.DateTimeField()
    outcome = models.CharField(max_length=10, choices=Outcome)
    reason = models.CharField(max_length=300, blank=True, help_text="Why it has to be looked at.")
    payment = models.ForeignKey(Payment, null=True, on_delete=models.PROTECT, related_name="+")
    looked_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-received_at", "-id"]
        constraints = [
            models.CheckConstraint(
                name="card_notice_says_why",
                condition=~Q(outcome="look") | ~Q(reason=""),
                violation_error_message="Say why a message has to be looked at.",
            )
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.event}"
