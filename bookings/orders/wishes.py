"""What a client asks for, before it has a time, a price or a name."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from django.utils.translation import gettext as _

from bookings.errors import NothingChosen
from bookings.pricing.models import Extra
from plates.bench.models import PlateSize

MOST_PLATES = 6
MOST_SITTERS = 12


@dataclass(frozen=True, slots=True)
class Wish:
    """Plates in the order they are to be made, numbers of extras, how many people, and the code of a discount.

    `code` is written as `discount_code` writes it; empty for none. Raises NothingChosen.
    """

    sizes: Sequence[PlateSize]
    extras: Mapping[Extra, int] = field(default_factory=dict)
    sitters: int = 1
    code: str = ""

    def __post_init__(self) -> None:
        if not 1 <= len(self.sizes) <= MOST_PLATES:
            raise NothingChosen(
                _("Choose between one and {most_plates} plates for a sitting.").format(
                    most_plates=MOST_PLATES
                )
            )
        if not 1 <= self.sitters <= MOST_SITTERS:
            raise NothingChosen(
                _("Between one and {most_sitters} people can be in the picture.").format(
                    most_sitters=MOST_SITTERS
                )
            )

    def fingerprint(self, day_id: int, starts_at: datetime) -> str:
        """One line that tells a repeat of the same wish from another wish."""
        plates = ",".join(str(size.pk) for size in self.sizes)
        extras = ",".join(f"{extra.pk}x{count}" for extra, count in self.extras.items())
        return f"{day_id} {starts_at.isoformat()} {plates} {extras} {self.sitters} {self.code}"


def discount_code(typed: str) -> str:
    """A code as it is kept: capital letters, without the blanks that people type into it."""
    return "".join(typed.split()).upper()
