"""Cards paid online: pages of the card service that clients were sent to, and its messages. Never a card number."""

from dataclasses import dataclass

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bookings.cards.events import Kind
from bookings.money import Money
from bookings.orders.models import Order
from bookings.payments.models import Payment
from bookings.vouchers.models import Voucher


@dataclass(frozen=True, slots=True)
class Received:
    """What was paid on one page of the card service, and what of it was refunded, in minor units."""

    page: "CardCheckout"
    payment: Payment
    returned: Money

    @property
    def left(self) -> Money:
        return max(0, self.payment.amount - self.returned)


class CardCheckoutQuerySet(models.QuerySet["CardCheckout"]):
    def awaited(self) -> bool:
        """Whether no message has come yet about the last of these pages."""
        last = self.last()
        return last is not None and not CardNotice.objects.filter(session=last.session).exists()

    def received(self) -> list[Received]:
        """Every payment that came by these pages, oldest first."""
        pages = {page.session: page for page in self}
        notices = CardNotice.objects.filter(session__in=pages, payment__isnull=False)
        paid: dict[str, Payment] = {}
        returned: dict[str, dict[str, Money]] = {session: {} for session in pages}
        # Failed refunds last, whenever they were told: what could not be refunded was not refunded.
        for notice in sorted(
            notices.select_related("payment"), key=lambda each: each.kind == Kind.NOT_RETURNED
        ):
            if notice.kind == Kind.PAID and notice.payment:
                paid[notice.session] = notice.payment
            else:
                failed = notice.kind == Kind.NOT_RETURNED
                returned[notice.session][notice.refund] = 0 if failed else notice.amount or 0
        return [
            Received(page=page, payment=paid[session], returned=sum(returned[session].values()))
            for session, page in pages.items()
            if session in paid
        ]


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

    objects = CardCheckoutQuerySet.as_manager()

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
    WAITING = "waiting", _("To be looked at")


# Somebody has to see to these.
OPEN = (Outcome.LOOK, Outcome.WAITING)


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

    @property
    def sentence(self) -> str:
        """Why it has to be looked at, in the studio's language."""
        if self.outcome != Outcome.WAITING:
            return self.reason
        return gettext(
            "Money was given back for a payment that is not known here. Once that is told, this is entered by itself."
        )
