"""What does not hold up the hands on days that are played: a late sitter, a plate to be made again, a lift."""

import numpy as np

from plates.capacity.risk.state import Played


def let_in(played: Played, sitting: int, planned: int, last: bool) -> None:
    """Settle a sitter who was late, where there by now or soon enough for the turn; `last`: wait on all days."""
    missing, due = played.missing[sitting], played.due[sitting]
    soon = planned - played.times.settle
    here = missing if last else missing & (due <= np.maximum(played.hands.free, soon))
    begin, _ = played.take_on(here, due, played.luck[sitting].settle)
    played.settled[sitting] = np.where(here, begin, played.settled[sitting])
    played.missing[sitting] = missing & ~here
    if last:
        del played.missing[sitting]


def make_again(played: Played, plate: int, place: int) -> None:
    """Make a spoilt plate again before the turn at `place`, the hands bound to it from the pour to the fix."""
    luck, own = played.plates[plate], played.order.plates[plate]
    spoilt = luck.again > 0
    after_bath = sum(luck.work[step] for step in ("load", "expose", "develop", "fix"))
    each = luck.work["pour"] + played.times.sensitise.least + after_bath
    ready = np.maximum(played.fixed[plate], played.left[own.tank] - luck.work["pour"])
    _, end = played.take_on(spoilt, ready, luck.again * each)
    played.fixed[plate] = np.where(spoilt, end, played.fixed[plate])
    played.left[own.tank] = np.where(spoilt, end - after_bath, played.left[own.tank])
    if own.again_at > played.order.farewell[own.sitting]:
        _say_goodbye(played, plate)


def _say_goodbye(played: Played, plate: int) -> None:
    """The farewell that had to wait for this plate, unless another of the sitting is still to be made again."""
    order, sitting = played.order, played.order.plates[plate].sitting
    last = played.plates[plate].again > 0
    for other, own in enumerate(order.plates):
        if own.sitting == sitting and (own.again_at, other) > (order.plates[plate].again_at, plate):
            last = last & (played.plates[other].again == 0)
    _, end = played.take_on(last, played.fixed[plate], played.luck[sitting].farewell)
    played.gone[sitting] = np.where(last, end, played.gone[sitting])


def owe(played: Played, plate: int) -> None:
    """From now on the plate is to be lifted."""
    played.washing[plate] = played.always
    played.lifted[plate] = played.racked[plate] = -played.never


def lift(played: Played, plate: int, latest: float) -> None:
    """Lift a plate where its wash is over or the hands are in time to wait for it, beginning at `latest`."""
    own, minutes = played.order.plates[plate], played.plates[plate].work["lift"]
    due = played.fixed[plate]
    for before in own.washed_after:
        due = np.maximum(due, played.lifted[before])
    due = due + played.times.wash.least - played.away_of(plate)
    can = played.washing[plate] & (due <= np.maximum(played.hands.free, latest))
    begin, end = played.take_on(can, due, minutes)
    played.lifted[plate] = np.where(can, begin - played.away_of(plate), played.lifted[plate])
    played.racked[plate] = np.where(can, end, played.racked[plate])
    played.washing[plate] = played.washing[plate] & ~can
    if not played.washing[plate].any():
        del played.washing[plate]
