"""Letters as rows: written in the transaction that causes them, sent afterwards."""

from datetime import datetime

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _


class NoticeKind(models.TextChoices):
    DEPOSIT_DUE = "deposit_due", _("Place held, deposit due")
    CONFIRMED = "confirmed", _("Sitting confirmed")
    NEW_TIME = "new_time", _("A new time is needed")
    LATER = "later", _("Sitting begins later")
    CANCELLED = "cancelled", _("Sitting cancelled")
    READY = "ready", _("Plates ready for pickup")
    POSTED = "posted", _("Plates posted")
    NOT_COLLECTED = "uncollected", _("Plates not collected")
    INVOICE = "invoice", _("Invoice")
    VOUCHER = "voucher", _("Gift voucher")
    STEP_UP = "step_up", _("Link for the client alone")
    WAITING = "waiting", _("On the waiting list")
    OFFER = "offer", _("A time is offered")
    DAY_BEFORE = "day_before", _("A day before the sitting")
    DEPOSIT_MISSING = "deposit_missing", _("Deposit not there yet")
    IN_WASH = "in_wash", _("Plates in the wash")
    CONSENT_REVIEW = "consent_review", _("Answers to be looked at again")


# What a client can do without: these can be stopped. What was agreed, asked for or billed is told all the same.
REMINDERS = frozenset(
    {
        NoticeKind.DAY_BEFORE,
        NoticeKind.DEPOSIT_MISSING,
        NoticeKind.NOT_COLLECTED,
        NoticeKind.CONSENT_REVIEW,
    }
)


class NoticeQuerySet(models.QuerySet["Notice"]):
    def due(self, now: datetime) -> "NoticeQuerySet":
        """Letters to be sent at `now` that no sender has in hand."""
        waiting = self.filter(sent_at=None, given_up_at=None, withdrawn_at=None, due_at__lte=now)
        return waiting.filter(models.Q(claimed_until__isnull=True) | models.Q(claimed_until__lte=now))


class Notice(models.Model):
    """One letter to one client. Sent at least once; its Message-ID never changes, so a repeat can be recognised."""

    order = models.ForeignKey("bookings.Order", null=True, on_delete=models.CASCADE, related_name="notices")
    voucher = models.ForeignKey(
        "bookings.Voucher", null=True, on_delete=models.CASCADE, related_name="notices"
    )
    waiting = models.ForeignKey(
        "bookings.Waiting", null=True, on_delete=models.CASCADE, related_name="notices"
    )
    invoice = models.ForeignKey(
        "bookings.Invoice",
        null=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="The paper that goes with it.",
    )
    parcel = models.ForeignKey("bookings.Parcel", null=True, on_delete=models.PROTECT, related_name="notices")
    step_up = models.ForeignKey("bookings.StepUp", null=True, on_delete=models.CASCADE, related_name="+")
    kind = models.CharField(max_length=16, choices=NoticeKind)
    occasion = models.CharField(
        max_length=40, help_text="Tells this letter from others of its kind. A key that nobody reads back."
    )
    sequence = models.PositiveSmallIntegerField(
        null=True, help_text="The calendar sequence of the sitting whose time it tells."
    )
    expected_at = models.DateTimeField(null=True, help_text="The later start that it tells.")
    message_id = models.CharField(max_length=120, unique=True)
    due_at = models.DateTimeField()
    claimed_until = models.DateTimeField(null=True, help_text="A sender has this letter in hand until then.")
    tries = models.PositiveSmallIntegerField(default=0)
    last_error = models.CharField(max_length=300, blank=True)
    sent_at = models.DateTimeField(null=True)
    given_up_at = models.DateTimeField(null=True, help_text="It could not be sent; the owner is shown it.")
    dead_address = models.BooleanField(default=False, help_text="Given up because nobody is at the address.")
    withdrawn_at = models.DateTimeField(null=True, help_text="It was no longer true when its time came.")

    objects = NoticeQuerySet.as_manager()

    class Meta:
        ordering = ["due_at", "id"]
        constraints = [
            models.UniqueConstraint(fields=["order", "kind", "occasion"], name="notice_once"),
            models.UniqueConstraint(fields=["voucher", "kind", "occasion"], name="notice_of_voucher_once"),
            models.UniqueConstraint(fields=["waiting", "kind", "occasion"], name="notice_of_waiting_once"),
            models.CheckConstraint(
                name="notice_about_one_thing",
                condition=Q(order__isnull=False, voucher__isnull=True, waiting__isnull=True)
                | Q(order__isnull=True, voucher__isnull=False, waiting__isnull=True)
                | Q(order__isnull=True, voucher__isnull=True, waiting__isnull=False),
                violation_error_message="A letter is about an order, a voucher or a place on a waiting list.",
            ),
            models.CheckConstraint(
                name="notice_dead_is_given_up",
                condition=Q(dead_address=False) | Q(given_up_at__isnull=False),
                violation_error_message="A letter to a dead address is given up.",
            ),
            models.CheckConstraint(
                name="notice_with_its_invoice",
                condition=Q(kind="invoice", invoice__isnull=False)
                | (~Q(kind="invoice") & Q(invoice__isnull=True)),
                violation_error_message="An invoice is sent with a letter of that kind, and no other.",
            ),
            models.CheckConstraint(
                name="notice_of_its_parcel",
                condition=Q(kind="posted", parcel__isnull=False)
                | (~Q(kind="posted") & Q(parcel__isnull=True)),
                violation_error_message="A letter about a parcel names it, and no other letter does.",
            ),
            models.CheckConstraint(
                name="notice_with_its_link",
                condition=Q(kind="step_up", step_up__isnull=False)
                | (~Q(kind="step_up") & Q(step_up__isnull=True)),
                violation_error_message="A link for one purpose is mailed with a letter of that kind, and no other.",
            ),
            models.CheckConstraint(
                name="notice_of_its_time",
                condition=Q(kind="later", expected_at__isnull=False)
                | (~Q(kind="later") & Q(expected_at__isnull=True)),
                violation_error_message="A letter about a later start tells when, and no other letter does.",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.kind} for {self.order or self.voucher or self.waiting}"


class MailAway(models.Model):
    """There while the mail server takes nothing: since when, and when it is tried again. The letters wait unchanged."""

    since = models.DateTimeField()
    try_again_at = models.DateTimeField()
    tries = models.PositiveIntegerField(default=0)
    error = models.CharField(max_length=300)

    class Meta:
        constraints = [models.CheckConstraint(name="mail_away_one_row", condition=Q(id=1))]

    def __str__(self) -> str:
        return f"no letters taken since {self.since:%Y-%m-%d %H:%M} UTC"


class ReminderStop(models.Model):
    """A mail address that wants no reminders. Only a keyed digest of it is kept, so that it outlives its client."""

    digest = models.CharField(max_length=64, unique=True)
    at = models.DateTimeField()

    class Meta:
        ordering = ["at", "id"]

    def __str__(self) -> str:
        return f"no reminders since {self.at:%Y-%m-%d %H:%M} UTC"
