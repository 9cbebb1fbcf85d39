"""What the dark tent shows of a day, and what a telephone takes along of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from plates.bench.models import BenchDay, SpoiltReason, Stage
from plates.bench.stages import UNDO_FOR
from plates.common.words import within
from plates.tent.clocks import Clock, Reading, clocks, most_pressing, read_clock
from plates.tent.selectors.plates import LAST, WET, TentPlate, milliseconds, steps

# So many plates that are not poured yet stand beside those being made; the others are folded away.
NEXT_POURS = 2


# What the scripts of the tent say by themselves, as `tent.say` has it.
SAID = (
    gettext_noop("Plate {number}"),
    gettext_noop("New plate"),
    gettext_noop("To pour"),
    gettext_noop("Not poured"),
    gettext_noop("Not entered ({what}, {time}): {sentence}"),
    gettext_noop("Seen"),
    gettext_noop("wait"),
    gettext_noop("go"),
    gettext_noop("soon"),
    gettext_noop("late"),
    gettext_noop("1 press kept in this telephone"),
    gettext_noop("{number} presses kept in this telephone"),
    gettext_noop("Signed out: {presses}. Sign in again to send (a bright page)."),
    gettext_noop("The studio cannot answer ({status}): {presses}, sent when it can."),
    gettext_noop("No network: {presses}, sent when it is back."),
    gettext_noop("Sound: on"),
    gettext_noop("Sound: off"),
    gettext_noop("Vibration: on"),
    gettext_noop("Vibration: off"),
    gettext_noop("Screen kept awake: yes"),
    gettext_noop("Screen kept awake: no"),
)


REASONS = {reason.value: reason.label for reason in SpoiltReason if reason != SpoiltReason.MISTAKE}


@dataclass(frozen=True, slots=True)
class Shown:
    """A plate with what its clock says; `reading` is None where nothing is waited for."""

    plate: TentPlate
    clock: Clock | None
    reading: Reading | None

    @property
    def digits(self) -> str:
        return digits(self.reading.seconds) if self.reading else ""


def in_hand(*, plates: list[TentPlate], rows: Mapping[str, Clock], asked: int, now: datetime) -> Shown | None:
    """The plate to work on: the one that was asked for by its place, else the one whose clock presses most."""
    left = {plate.slot: plate for plate in plates if plate.step}
    if asked not in left:
        pressing = most_pressing(_end(plate, rows) for plate in left.values())
        if pressing is None:
            return None
        asked = pressing
    return card(plate=left[asked], rows=rows, now=now)


def others(*, plates: list[TentPlate], hand: int) -> tuple[list[TentPlate], list[TentPlate]]:
    """The other plates with work left: those being made with the few to be poured next, and those of later."""
    left = [plate for plate in plates if plate.step and plate.slot != hand]
    made = [plate for plate in left if plate.stage not in ("", Stage.SPOILT)]
    to_pour = [plate for plate in left if plate.stage in ("", Stage.SPOILT)]
    return made + to_pour[:NEXT_POURS], to_pour[NEXT_POURS:]


def card(*, plate: TentPlate, rows: Mapping[str, Clock], now: datetime) -> Shown:
    """The plate with its clock as it stands at `now`."""
    clock = rows.get("" if plate.stage == Stage.SPOILT else plate.stage)
    if clock is None:
        return Shown(plate, None, None)
    return Shown(plate, clock, read_clock(clock, (now - _began(plate, clock)) // timedelta(seconds=1)))


def newest_press(*, plates: list[TentPlate], now: datetime) -> TentPlate | None:
    """The plate whose newest press can still be taken back: the last one that was pressed for the tent's own work."""
    pressed = [
        plate
        for plate in plates
        if plate.events
        and now - plate.events[-1][1] <= UNDO_FOR
        and (plate.step is not None or plate.stage == LAST)
    ]
    return max(pressed, key=lambda plate: plate.events[-1][1], default=None)


def as_json(*, day: BenchDay, plates: list[TentPlate], now: datetime) -> dict[str, object]:
    """All that a telephone needs to go on without network, in plain values."""
    return {
        "now": milliseconds(now),
        "undo_for": UNDO_FOR.seconds * 1000,
        "clocks": {
            stage: clock.as_json() for stage, clock in clocks(day.bench.as_capacity().timings, _).items()
        },
        "steps": steps(),
        "stages": {stage.value: str(stage.label) for stage in Stage},
        "stages_within": {stage.value: within(stage.label) for stage in Stage},
        "words": {word: _(word) for word in SAID},
        "wet": WET,
        "last": LAST,
        "next_pours": NEXT_POURS,
        "plates": [plate.as_json() for plate in plates],
    }


def digits(seconds: int) -> str:
    """Minutes and seconds; from a hundred minutes on, hours and minutes."""
    if seconds < 6000:
        return f"{seconds // 60}:{seconds % 60:02}"
    return f"{seconds // 3600} h {seconds // 60 % 60:02}"


def _began(plate: TentPlate, clock: Clock) -> datetime:
    """When the clock began: at the event that it counts from, or at the planned pour."""
    return dict(plate.events).get(clock.since, plate.planned)


def _end(plate: TentPlate, rows: Mapping[str, Clock]) -> tuple[int, bool, float]:
    clock = rows["" if plate.stage == Stage.SPOILT else plate.stage]
    span = clock.least if clock.most is None else clock.most
    return plate.slot, plate.stage in WET, _began(plate, clock).timestamp() + span
