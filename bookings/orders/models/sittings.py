"""Sittings: the promise that an order is photographed on a day."""

from typing import Self

from django.db import models

from bookings.diary.models import SittingDay
from bookings.orders.models.orders import Order
from plates.bench.models import BenchJob


class SittingQuerySet(models.QuerySet["Sitting"]):
    def of_open_orders(self) -> Self:
        """Sittings of orders that were placed and not cancelled."""
        return self.filter(order__placed_at__isnull=False, order__cancelled_at__isnull=True)

    def not_begun(self) -> Self:
        """Sittings of open orders that have not begun, and whose sitter was not given up."""
        return self.of_open_orders().filter(absent_at__isnull=True, bench_job__begun_at__isnull=True)


class Sitting(models.Model):
    """The promise made to a client: this order is photographed on this day, as its bench job says."""

    order = models.OneToOneField(Order, on_delete=models.PROTECT, related_name="sitting")
    day = models.ForeignKey(SittingDay, on_delete=models.PROTECT, related_name="sittings")
    bench_job = models.OneToOneField(BenchJob, on_delete=models.PROTECT, related_name="+")
    cautions_read_at = models.DateTimeField(null=True)
    arrived_at = models.DateTimeField(null=True, blank=True)
    absent_at = models.DateTimeField("did not come", null=True, blank=True)
    sat_at = models.DateTimeField("has sat", null=True, blank=True)
    calendar_sequence = models.PositiveSmallIntegerField(default=0)

    objects = SittingQuerySet.as_manager()

    class Meta:
        ordering = ["bench_job__starts_at", "id"]
        constraints = [
            models.CheckConstraint(
                name="sitting_here_or_not",
                condition=models.Q(absent_at__isnull=True)
                | models.Q(arrived_at__isnull=True, sat_at__isnull=True),
                violation_error_message="A sitter who did not come has neither arrived nor sat.",
            ),
            models.CheckConstraint(
                name="sitting_arrived_before_it_sat",
                condition=models.Q(sat_at__isnull=True) | models.Q(arrived_at__isnull=False),
                violation_error_message="A sitter arrives before sitting.",
            ),
        ]

    def __str__(self) -> str:
        return f"sitting of {self.order}"
