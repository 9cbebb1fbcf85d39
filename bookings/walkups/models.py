"""The walk-up line of a day: people without an appointment, first come, first served."""

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bookings.diary.models import SittingDay
from bookings.orders.models import Order
from plates.bench.models import BenchJob, PlateSize

CALLING = _("I may be called by this name, aloud and on the large page at the stall.")


class LinePlace(models.Model):
    """One person in the line of a day with room for one plate. It ends in leaving, in being struck off, or in an order.

    Of a person only the name to call is kept here, and not even that once the place was given up.
    """

    day = models.ForeignKey(SittingDay, on_delete=models.PROTECT, related_name="line")
    number = models.PositiveSmallIntegerField()
    key = models.UUIDField(
        unique=True, help_text="The form that it was taken with; sent twice it is one place."
    )
    name = models.CharField(max_length=40, blank=True)
    agreed = models.CharField(max_length=120, help_text="The words about being called that were agreed to.")
    at_desk = models.BooleanField(default=False)
    size = models.ForeignKey(PlateSize, on_delete=models.PROTECT, related_name="+")
    bench_job = models.OneToOneField(BenchJob, on_delete=models.PROTECT, related_name="+")
    joined_at = models.DateTimeField()
    called_at = models.DateTimeField(null=True)
    left_at = models.DateTimeField(null=True)
    struck_at = models.DateTimeField("did not come", null=True)
    order = models.OneToOneField(Order, null=True, on_delete=models.PROTECT, related_name="line_place")

    class Meta:
        ordering = ["day_id", "number"]
        constraints = [
            models.UniqueConstraint(fields=["day", "number"], name="line_number_once"),
            models.CheckConstraint(
                name="line_place_one_end",
                condition=Q(left_at__isnull=True, struck_at__isnull=True)
                | Q(left_at__isnull=True, order__isnull=True)
                | Q(struck_at__isnull=True, order__isnull=True),
                violation_error_message="A place in the line is left, struck off, or becomes an order: one of them.",
            ),
            models.CheckConstraint(
                name="line_place_struck_after_call",
                condition=Q(struck_at__isnull=True) | Q(called_at__isnull=False),
                violation_error_message="Call before striking anybody off.",
            ),
        ]

    def __str__(self) -> str:
        return f"number {self.number}"

    @property
    def ended(self) -> bool:
        """Whether nobody stands at this place any more."""
        return self.left_at is not None or self.struck_at is not None or self.order_id is not None
