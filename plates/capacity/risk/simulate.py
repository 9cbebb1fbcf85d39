"""Thousands of days played at once in the order of the plan: each turn as soon as hands, place, plate and sitter allow.

What hands do when a day does not go as planned is own judgement. They do not begin ahead of a promise. They wait
for a late sitter no longer than a bath may be stretched, then go on with others. A plate stays in the bath while they
are taken, however long. A spoilt plate is made again, bath included, before the next one is poured for its tank
place, and takes what its first try took; its sitter may then stay beyond the seats there are. A lift is done when its
wash is over. Where the wash is full, a plate waits in the fixer. Only bath and wash are clocks that never run shorter.
Without chance every turn begins no later than planned.
"""

from collections.abc import Sequence
from math import inf

from plates.capacity.problem.bench import Bench
from plates.capacity.risk.draws import SitterLuck
from plates.capacity.risk.order import Order, Turn
from plates.capacity.risk.state import Played
from plates.capacity.risk.turns import TURNS
from plates.capacity.risk.yielding import let_in, lift, make_again, owe


def play(bench: Bench, opens: int, order: Order, luck: Sequence[SitterLuck]) -> Played:
    """The days as they go with this luck (at least one sitting); `opens` is when the hands are first free."""
    played = Played(bench, opens, order, luck)
    again, owed = _by_turn(order)
    for place, turn in enumerate(order.turns):
        for plate in again.get(place, ()):
            make_again(played, plate, place)
        _give_way(played, turn, place, owed.get(place, []))
        TURNS[turn.step](played, turn, place)
    for plate in again.get(len(order.turns), ()):
        make_again(played, plate, len(order.turns))
    for plate in order.lifts:
        if order.plates[plate].owed_at == len(order.turns):
            owe(played, plate)
        if plate in played.washing:
            lift(played, plate, inf)
    return played


def _give_way(played: Played, turn: Turn, place: int, owed: Sequence[int]) -> None:
    order, calm = played.order, played.order.calm[place]
    for sitting in list(played.missing):
        last = place == order.first_pour[sitting]
        if last or calm:
            let_in(played, sitting, turn.planned, last)
    for plate in owed:
        owe(played, plate)
    for plate in list(played.washing) if calm else owed:
        latest = max(order.plates[plate].lift, turn.planned - played.times.lift)
        lift(played, plate, latest)


def _by_turn(order: Order) -> tuple[dict[int, list[int]], dict[int, list[int]]]:
    """The plates to be made again, and those whose lift is first owed, before each turn."""
    again: dict[int, list[int]] = {}
    owed: dict[int, list[int]] = {}
    for plate, own in enumerate(order.plates):
        again.setdefault(own.again_at, []).append(plate)
    for plate in order.lifts:
        owed.setdefault(order.plates[plate].owed_at, []).append(plate)
    return again, owed
