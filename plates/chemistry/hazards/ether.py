"""When opened ether must be tested for peroxides or thrown away.

Ether makes explosive peroxides in air and light (EUH019). The intervals are those of university safety offices' pages
(A): six months for opened cans at two of them, twelve at two others; the shorter is the default.
"""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Literal

from plates.chemistry.sentences import Sentence
from plates.chemistry.stock.shelf import months_later
from plates.chemistry.values import ChemistryValueError, Exact, exact, figures

Verdict = Literal["use", "test", "do not use", "do not touch"]

TEST_EVERY_MONTHS = 6
KEEP_UNOPENED_MONTHS = 12
# Parts per million of peroxide: one page has it disposed of from 100, another takes waste only up to 20 (A).
DANGEROUS_PPM = 100
SAFE_PPM = 20
NEVER_OPEN = Sentence(
    "Never open or move a can that is undated, rusted, or has crystals or a crust at the cap: have it taken away by a"
    " licensed service."
)


@dataclass(frozen=True, slots=True)
class Ether:
    """A can: when it came, was opened, and was last tested, with the parts per million of peroxide found."""

    received_on: date | None
    opened_on: date | None = None
    tested_on: date | None = None
    peroxide_ppm: Exact | None = None
    sound: bool = True

    def __post_init__(self) -> None:
        dates = [each for each in (self.received_on, self.opened_on, self.tested_on) if each]
        if dates != sorted(dates):
            raise ChemistryValueError(
                Sentence("Ether is received first, then opened, then tested: look at the dates.")
            )
        if (self.tested_on is None) != (self.peroxide_ppm is None):
            raise ChemistryValueError(Sentence("A test needs both its day and the peroxide that was found."))
        if self.peroxide_ppm is not None:
            exact("Peroxide in ppm", self.peroxide_ppm, least=0)

    def due(self, *, every_months: int = TEST_EVERY_MONTHS) -> date | None:
        """The day from which it must be tested or thrown away; None for a can without a date."""
        if since := self.tested_on or self.opened_on:
            return months_later(since, exact_months(every_months))
        return self.received_on and months_later(self.received_on, KEEP_UNOPENED_MONTHS)


@dataclass(frozen=True, slots=True)
class EtherAnswer:
    verdict: Verdict
    sentence: Sentence


def judge(can: Ether, on: date, *, every_months: int = TEST_EVERY_MONTHS) -> EtherAnswer:
    """What to do with a can on that day, the most dangerous first."""
    due = can.due(every_months=every_months)
    if due is None or not can.sound:
        return EtherAnswer("do not touch", NEVER_OPEN)
    peroxide = Fraction(can.peroxide_ppm or 0)
    found = Sentence("It holds {ppm} ppm of peroxide", ppm=figures(peroxide, 1))
    if peroxide >= DANGEROUS_PPM:
        danger = Sentence(
            "{found}: do not open or move it, have a licensed service take it away.", found=found
        )
        return EtherAnswer("do not touch", danger)
    if peroxide > SAFE_PPM:
        unsafe = Sentence("{found}: do not use or heat it, and ask the waste service now.", found=found)
        return EtherAnswer("do not use", unsafe)
    if on >= due:
        overdue = Sentence(
            "Since {due} it must be tested for peroxides or thrown away before it is used.", due=str(due)
        )
        return EtherAnswer("test", overdue)
    return EtherAnswer("use", Sentence("Test it or throw it away by {due}.", due=str(due)))


def exact_months(months: int) -> int:
    """The months between tests: one to twelve, and a whole number. Raises ChemistryValueError."""
    exact("Months between tests", months, least=1, most=12)
    return months
