"""What was worked out about a day beforehand. Each row says for which standing of the day it holds, and no longer."""

from django.db import models

from plates.bench.models.bench import BenchDay


class DayStarts(models.Model):
    """The start times of one usual order on a day, so that a page reads them and need not work them out.

    `order` is the engine's view of the plates (see `order_key` in `plates.schedule.selectors.start_times`),
    `standing` that of the day with all it has promised. `starts` and `undecided` are minutes from the opening.
    """

    day = models.ForeignKey(BenchDay, on_delete=models.CASCADE, related_name="starts_known")
    order = models.CharField(max_length=60)
    standing = models.CharField(max_length=40)
    starts = models.JSONField()
    undecided = models.JSONField()
    bound_by = models.CharField(max_length=80, blank=True)
    holds_until = models.DateTimeField(
        null=True, help_text="When a hold lapses, more may be possible than is said here."
    )

    class Meta:
        constraints = [models.UniqueConstraint(fields=["day", "order"], name="day_starts_once")]
        verbose_name_plural = "day starts"

    def __str__(self) -> str:
        return f"starts for {self.order} on {self.day_id}"


class Foreseen(models.Model):
    """A whole day planned anew so that one more sitting fits, waiting to be taken under the lock of the day.

    `plans` holds the plan of each job by its id, and that of the new sitting as "asked". It is worth nothing once
    the day has changed: whoever takes it has it verified again.
    """

    day = models.ForeignKey(BenchDay, on_delete=models.CASCADE, related_name="foreseen")
    version = models.PositiveIntegerField()
    start = models.IntegerField(help_text="Minutes from the opening of the day.")
    order = models.CharField(max_length=60)
    leaving = models.PositiveBigIntegerField(
        default=0, help_text="The job that gives up its present place for this one; 0 for a new sitting."
    )
    plans = models.JSONField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["day", "start", "order", "leaving"], name="foreseen_once")
        ]
        verbose_name_plural = "foreseen"

    def __str__(self) -> str:
        return f"foreseen on {self.day_id} from minute {self.start}"


class DayTimes(models.Model):
    """For which standing of a day under way, and when, its times were last worked out (`BenchJob.expected_at`)."""

    day = models.OneToOneField(BenchDay, on_delete=models.CASCADE, related_name="times_known")
    standing = models.CharField(max_length=40)
    worked_out_at = models.DateTimeField()

    class Meta:
        verbose_name_plural = "day times"

    def __str__(self) -> str:
        return f"times of {self.day_id}"
