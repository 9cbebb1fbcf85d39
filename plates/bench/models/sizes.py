"""Plate sizes. Sides are stored, never derived from the name: half a whole plate is not a half plate."""

from decimal import Decimal

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from plates.capacity import Size


class PlateSize(models.Model):
    """A size the studio makes, by its sides in millimetres."""

    name = models.CharField(max_length=40, unique=True)
    width_mm = models.DecimalField(
        "width (mm)", max_digits=7, decimal_places=3, validators=[MinValueValidator(Decimal(10))]
    )
    height_mm = models.DecimalField(
        "height (mm)", max_digits=7, decimal_places=3, validators=[MinValueValidator(Decimal(10))]
    )
    wash_places = models.PositiveSmallIntegerField(
        default=1,
        validators=[MinValueValidator(1), MaxValueValidator(50)],
        help_text="How many places in the wash one plate of this size takes.",
    )
    offered = models.BooleanField(default=True, help_text="Shown to clients who choose their plates.")

    class Meta:
        ordering = ["width_mm", "height_mm"]
        constraints = [
            models.CheckConstraint(
                name="plate_size_sides",
                condition=models.Q(width_mm__gt=0, height_mm__gt=0),
                violation_error_message="Both sides of a plate must be longer than nothing.",
            ),
            models.CheckConstraint(
                name="plate_size_wash_places",
                condition=models.Q(wash_places__gte=1),
                violation_error_message="A plate takes at least one place in the wash.",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def area_cm2(self) -> Decimal:
        """Square centimetres, to two places, from the sides."""
        return (self.width_mm * self.height_mm / 100).quantize(Decimal("0.01"))

    def as_capacity(self) -> Size:
        """This size as the capacity engine knows it."""
        return Size(
            name=self.name,
            wash_places=self.wash_places,
            sides_mm=(float(self.width_mm), float(self.height_mm)),
        )
