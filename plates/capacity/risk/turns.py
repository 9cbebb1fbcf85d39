"""The turns of the hands on days that are played: when each step may begin, and what it leaves behind."""

from collections.abc import Callable

import numpy as np

from plates.capacity.risk.order import Turn
from plates.capacity.risk.state import Played


def settle(played: Played, turn: Turn, place: int) -> None:
    """Settle the sitter; who is too late for it on a day is let in later (risk_yielding.let_in)."""
    sitting, luck, order = turn.sitting, played.luck[turn.sitting], played.order
    due = np.maximum(luck.arrived, order.starts[sitting])
    before = order.seat_after[sitting]
    if before is not None and before in played.gone:
        due = np.maximum(due, played.gone[before])
    played.due[sitting] = due - played.away[sitting]
    if order.first_pour[sitting] == place + 1:
        played.settled[sitting], _ = played.hands.take(played.due[sitting], luck.settle)
        return
    patience = played.times.sensitise.most - played.times.sensitise.least
    expected = np.maximum(played.hands.free, order.starts[sitting])
    late = luck.came & (luck.arrived > expected + patience)
    played.settled[sitting], _ = played.take_on(~late, played.due[sitting], luck.settle)
    if late.any():
        played.missing[sitting] = late


def pour(played: Played, turn: Turn, place: int) -> None:
    """Pour when a tank place will be free, and not so early that the plate would lie in it too long."""
    plate, own = turn.plate, played.order.plates[turn.plate]
    free = played.left[own.tank]
    if own.behind is not None:
        bathed = played.ended["pour", own.behind] + played.times.sensitise.least
        free = np.maximum(free, bathed - played.away_of(own.behind))
    free = free - played.plates[plate].work["pour"]
    if own.pour_from is not None:
        free = np.maximum(free, own.pour_from)
    ready = np.maximum(free - played.away[turn.sitting], played.settled[turn.sitting])
    if own.follows:
        ready = np.maximum(ready, played.ended["pour", plate - 1])
    played.step("pour", plate, ready)


def load(played: Played, turn: Turn, place: int) -> None:
    """Take the plate out of the bath, when hands are free and not before its least time."""
    plate, own = turn.plate, played.order.plates[turn.plate]
    bathed = np.maximum(played.ended["pour", plate], played.left[own.tank])
    ready = bathed + played.times.sensitise.least
    if own.load_from is not None:
        ready = np.maximum(ready, own.load_from)
    played.step("load", plate, ready - played.away[turn.sitting])
    out = played.began["load", plate]
    played.bath[plate] = out - bathed
    played.left[own.tank] = np.maximum(played.left[own.tank], out - played.away[turn.sitting])


def expose(played: Played, turn: Turn, place: int) -> None:
    plate, sitting = turn.plate, turn.sitting
    settled = played.settled[sitting] + played.luck[sitting].settle
    ready = np.maximum(played.ended["load", plate], settled)
    if played.order.plates[plate].follows:
        ready = np.maximum(ready, played.ended["expose", plate - 1])
    played.step("expose", plate, ready)


def develop(played: Played, turn: Turn, place: int) -> None:
    end = played.step("develop", turn.plate, played.ended["expose", turn.plate])
    played.wet[turn.plate] = end - played.began["load", turn.plate]


def fix(played: Played, turn: Turn, place: int) -> None:
    played.fixed[turn.plate] = played.step("fix", turn.plate, played.ended["develop", turn.plate])


def farewell(played: Played, turn: Turn, place: int) -> None:
    """Say goodbye, but on days when one of the plates is still to be made again (risk_yielding.make_again)."""
    sitting = turn.sitting
    own = [plate for plate, each in enumerate(played.order.plates) if each.sitting == sitting]
    ready = np.maximum.reduce([played.fixed[plate] for plate in own])
    done = played.always
    for plate in own:
        if played.order.plates[plate].again_at > place:
            done = done & (played.plates[plate].again == 0)
    _, played.gone[sitting] = played.take_on(done, ready, played.luck[sitting].farewell)


TURNS: dict[str, Callable[[Played, Turn, int], None]] = {
    "settle": settle, "pour": pour, "load": load, "expose": expose, "develop": develop, "fix": fix,
    "farewell": farewell,
}  # fmt: skip
