"""A bench (the hands, tanks, wash and timings of one dark room) and the days it works."""

from datetime import datetime, timedelta

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q

from plates import capacity
from plates.bench.models.chemistry import ChemistryRules
from plates.bench.models.sizes import PlateSize


def minutes(default: int, help_text: str = "") -> "models.PositiveSmallIntegerField[int, int]":
    return models.PositiveSmallIntegerField(default=default, help_text=help_text)


def percent(default: int, help_text: str, most: int = 100) -> "models.PositiveSmallIntegerField[int, int]":
    return models.PositiveSmallIntegerField(
        default=default, help_text=help_text, validators=[MaxValueValidator(most)]
    )


class Bench(ChemistryRules):
    """What one dark room can do at once, and how many whole minutes each operation is planned to take.

    The minutes are planning values that each studio edits (common practice, no source).
    """

    name = models.CharField(max_length=60, unique=True)
    operators = models.PositiveSmallIntegerField(default=1, validators=[MinValueValidator(1)])
    tank_places = models.PositiveSmallIntegerField(default=1, validators=[MinValueValidator(1)])
    largest_size = models.ForeignKey(
        PlateSize,
        null=True,
        blank=True,
        on_delete=models.PROTECT,
        related_name="+",
        help_text="The largest plate that fits the silver tank; empty for any.",
    )
    wash_places = models.PositiveSmallIntegerField(default=6, validators=[MinValueValidator(1)])
    sitters_at_once = models.PositiveSmallIntegerField(default=3, validators=[MinValueValidator(1)])
    tolerance = minutes(5, "A sitter is begun with at most this many minutes after the promised time.")

    settle = minutes(4, "Greet, seat and pose the sitter.")
    pour = minutes(2, "Flow the collodion and let it set.")
    sensitise_least = minutes(3, "Shortest time in the silver bath.")
    sensitise_most = minutes(5, "Longest time in the silver bath.")
    load = minutes(1)
    expose = minutes(2)
    develop = minutes(2)
    wet_window = minutes(8, "From leaving the bath until development has ended.")
    fix = minutes(2)
    fix_within = minutes(2, "Longest wait between developing and fixing.")
    wash_least = minutes(60, "Shortest wash.")
    wash_most = minutes(120, "Longest a plate may stay in the wash.")
    lift = minutes(1, "Take a plate out of the wash and rack it.")
    farewell = minutes(2)
    farewell_within = minutes(5, "Longest wait between the last fixing and the farewell.")
    first_pour_within = minutes(12, "The first plate is poured this soon after the sitter is greeted.")
    next_pour_within = minutes(11, "Each next plate is poured this soon after the last was fixed.")

    wait_chance = models.PositiveSmallIntegerField(
        "chance of a long wait (%)",
        null=True,
        blank=True,
        default=10,
        validators=[MinValueValidator(1), MaxValueValidator(100)],
        help_text="No sitting is sold that makes a long wait likelier than this for anybody; empty: not regarded.",
    )
    wait_limit = minutes(10, "A sitter who is begun more minutes late than this has waited long.")
    retake_chance = percent(15, "Plates in a hundred that have to be made again.", most=95)
    no_show_chance = percent(5, "Sitters in a hundred who do not come.")
    spread = percent(25, "How far the real minutes of a step scatter about the planned ones.", most=200)
    late_minutes = minutes(4, "How far sitters scatter about their time when they arrive.")

    class Meta:
        ordering = ["name"]
        verbose_name_plural = "benches"
        constraints = [
            *ChemistryRules.Meta.constraints,
            models.CheckConstraint(
                name="bench_has_places",
                condition=Q(operators__gte=1, tank_places__gte=1, wash_places__gte=1, sitters_at_once__gte=1),
                violation_error_message="A bench needs at least one operator, tank place, wash place and sitter.",
            ),
            models.CheckConstraint(
                name="bench_bath_range",
                condition=Q(sensitise_least__lte=F("sensitise_most")),
                violation_error_message="The shortest bath cannot be longer than the longest.",
            ),
            models.CheckConstraint(
                name="bench_wash_range",
                condition=Q(wash_least__lte=F("wash_most")),
                violation_error_message="The shortest wash cannot be longer than the longest.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        try:
            self.as_capacity()
            self.as_chances()
        except capacity.CapacityValueError as error:
            raise ValidationError(str(error)) from error

    def as_capacity(self) -> capacity.Bench:
        """This bench as the capacity engine knows it; CapacityValueError when its minutes contradict each other."""
        largest = self.largest_size
        return capacity.Bench(
            operators=self.operators,
            tank_places=self.tank_places,
            wash_places=self.wash_places,
            sitters_at_once=self.sitters_at_once,
            tolerance=self.tolerance,
            largest_mm=largest.as_capacity().sides_mm if largest else None,
            rest=self.bath_rest,
            timings=capacity.Timings(
                settle=self.settle,
                pour=self.pour,
                sensitise=capacity.Span(self.sensitise_least, self.sensitise_most),
                load=self.load,
                expose=self.expose,
                develop=self.develop,
                wet_window=self.wet_window,
                fix=self.fix,
                fix_within=self.fix_within,
                wash=capacity.Span(self.wash_least, self.wash_most),
                lift=self.lift,
                farewell=self.farewell,
                farewell_within=self.farewell_within,
                first_pour_within=self.first_pour_within,
                next_pour_within=self.next_pour_within,
            ),
        )

    def as_chances(self) -> capacity.Chances:
        """The luck and the limits that risk reckons with, as the capacity engine knows them."""
        return capacity.Chances(
            retake=self.retake_chance / 100,
            no_show=self.no_show_chance / 100,
            spread=self.spread / 100,
            late_sd=self.late_minutes,
            wait_limit=self.wait_limit,
            chance_limit=None if self.wait_chance is None else self.wait_chance / 100,
        )


class BenchDay(models.Model):
    """One working day of one bench. Its row is the lock under which places are sold; `version` counts the changes."""

    bench = models.ForeignKey(Bench, on_delete=models.PROTECT, related_name="days")
    on = models.DateField("date")
    opens_at = models.DateTimeField()
    closes_at = models.DateTimeField()
    racks_empty_by = models.DateTimeField()
    start_every = models.PositiveSmallIntegerField(
        default=15, validators=[MinValueValidator(1)], help_text="Minutes between offered start times."
    )
    version = models.PositiveIntegerField(default=0, editable=False)

    class Meta:
        ordering = ["on", "bench_id"]
        constraints = [
            models.UniqueConstraint(
                fields=["bench", "on"],
                name="bench_day_once",
                violation_error_message="This bench is already at work on that date.",
            ),
            models.CheckConstraint(
                name="bench_day_hours",
                condition=Q(opens_at__lt=F("closes_at"), closes_at__lte=F("racks_empty_by")),
                violation_error_message="A day opens before it closes, and the racks are emptied no earlier than that.",
            ),
            models.CheckConstraint(name="bench_day_grid", condition=Q(start_every__gte=1)),
        ]

    def __str__(self) -> str:
        return f"{self.bench} on {self.on}"

    def minute(self, instant: datetime) -> int:
        """Whole minutes of real time from the opening to `instant`, rounded down."""
        return (instant - self.opens_at) // timedelta(minutes=1)

    def instant(self, minute: int) -> datetime:
        """The instant `minute` minutes after the opening."""
        return self.opens_at + timedelta(minutes=minute)

    def as_capacity(self) -> capacity.Day:
        """This day on the engine's axis: minutes of real time from its opening, so a clock change shifts nothing."""
        return capacity.Day(
            opens=0,
            closes=self.minute(self.closes_at),
            racks_empty_by=self.minute(self.racks_empty_by),
            start_every=self.start_every,
        )
