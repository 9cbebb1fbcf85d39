"""One hoist that carries plates through a line of tanks for ever: a client of the building blocks of the exact plan.

The line repeats itself every `period`: in each period one load begins at station 0 and every tank is emptied once.
Stays in a tank have a least and a most time, as a plate's stay in the silver bath has. Formulation by lifts within
one period, after the problem as Rodosek & Wallace 1998 (LNCS 1520) state it; theirs follows one load through the line.
"""

from dataclasses import dataclass

from plates.capacity.exact.model import Board


@dataclass(frozen=True)
class Line:
    """Stays of tanks 1..n; carry[i] is the loaded way from i to i+1 (the last to 0), empty[i][j] the empty way."""

    stays: tuple[tuple[int, int | None], ...]
    carry: tuple[int, ...]
    empty: tuple[tuple[int, ...], ...]

    @property
    def stations(self):
        return len(self.carry)

    def gap(self, one, two):
        """Minutes from lifting at one station until the hoist can lift at another."""
        return self.carry[one] + self.empty[(one + 1) % self.stations][two]


def lifts(line, most_period, seconds=20):
    """("found", period, lift of each station within it) with a period of at most so much, or the other outcome."""
    board = Board()
    period = board.minute(1, most_period)
    lift = [board.minute(0, 0), *(board.minute(0, most_period - 1) for _ in line.stays)]
    for each in lift:
        board.lag(each, period, 1)
    for tank in range(1, line.stations):
        _stay(board, line, lift, period, tank)
    for one in range(line.stations):
        for two in range(one + 1, line.stations):
            board.either(_turns(line, lift, period, one, two), _turns(line, lift, period, two, one))
    outcome = board.solve(seconds)
    if outcome != "found":
        return outcome, None, None
    return outcome, board.value(period), [board.value(each) for each in lift]


def _stay(board, line, lift, period, tank):
    """What is set down is lifted later in the same period, or in the next one."""
    down = lift[tank - 1] + line.carry[tank - 1]
    least, most = line.stays[tank - 1]
    ways = []
    for up in (lift[tank], lift[tank] + period):
        ways.append([(down, up, least)] if most is None else [(down, up, least), (up, down, -most)])
    board.either(*ways)


def _turns(line, lift, period, one, two):
    """In each period the hoist serves `one` before `two`."""
    return [(lift[one], lift[two], line.gap(one, two)), (lift[two], lift[one] + period, line.gap(two, one))]


def least_period(line, above, upto):
    """The least period by halving; `above` is known to be too little, `upto` to be enough. None: not decided.

    Not every longer period need be possible, so what is asked each time is a period of at most so much.
    """
    while upto - above > 1:
        middle = (above + upto) // 2
        outcome, period, _ = lifts(line, middle)
        if outcome == "unknown":
            return None
        above, upto = (above, period) if outcome == "found" else (middle, upto)
    return upto
