"""Thousands of days at once, as far as they have been played: one array for each sitting or plate, one entry a day."""

from collections.abc import Sequence

import numpy as np

from plates.capacity.problem.bench import Bench
from plates.capacity.risk.draws import Days, Minutes, PlateLuck, SitterLuck
from plates.capacity.risk.order import Order

Trace = dict[int, Minutes]


class Played:
    """What has happened, by the number of the sitting or of the plate on the day.

    due: the sitter is there, promised and has a seat. settled, gone: settling begins, the farewell ends. began, ended:
    by step, of the first try of a plate. fixed: the fixing of the last try ends. bath, wet: minutes in the bath, and
    from leaving it until developed. lifted, racked: the lift begins, ends. missing: the days on which a sitter has
    not been settled in turn. washing: the days on which the lift of a plate is owed.
    """

    def __init__(self, bench: Bench, opens: int, order: Order, luck: Sequence[SitterLuck]) -> None:
        self.times, self.order, self.luck = bench.timings, order, luck
        self.plates: list[PlateLuck] = [plate for sitter in luck for plate in sitter.plates]
        days = len(luck[0].came)
        self.hands = Hands(bench.operators, opens, days)
        self.never, self.always = np.full(days, -AWAY), np.ones(days, dtype=bool)
        self.away = [np.where(sitter.came, 0.0, AWAY) for sitter in luck]
        self.left = [self.never] * bench.tank_places
        self.due, self.settled, self.gone = Trace(), Trace(), Trace()
        self.began: dict[tuple[str, int], Minutes] = {}
        self.ended: dict[tuple[str, int], Minutes] = {}
        self.fixed, self.bath, self.wet = Trace(), Trace(), Trace()
        self.lifted, self.racked = Trace(), Trace()
        self.missing: dict[int, Days] = {}
        self.washing: dict[int, Days] = {}

    def away_of(self, plate: int) -> Minutes:
        """Nought on the days on which the sitter of the plate came; taken from a minute it makes that long ago."""
        return self.away[self.order.plates[plate].sitting]

    def step(self, name: str, plate: int, ready: Minutes) -> Minutes:
        """Do one step of a plate as soon as it is ready and hands are free; when it ends."""
        begin, end = self.hands.take(ready, self.plates[plate].work[name])
        self.began[name, plate], self.ended[name, plate] = begin, end
        return end

    def take_on(self, days: Days, ready: Minutes, minutes: Minutes) -> tuple[Minutes, Minutes]:
        """Begin and end of work that is done on some days only; on the others both are without a meaning."""
        return self.hands.take(np.where(days, ready, self.never), np.where(days, minutes, 0.0))


# Minutes that no day reaches: work that is not to be waited for is ready as long ago as this.
AWAY = 1e9


class Hands:
    """`free`: the minute from which a pair of hands is free, one entry a day."""

    def __init__(self, pairs: int, opens: int, days: int) -> None:
        # The earliest free pair comes first on every day.
        self._pairs = np.full((pairs, days), float(opens))
        self._days = np.arange(days)
        self.free: Minutes = self._pairs[0]

    def take(self, ready: Minutes, minutes: Minutes) -> tuple[Minutes, Minutes]:
        """Begin and end of work that is ready at a minute, done by the hands that stand idle for it the shortest."""
        begin = np.maximum(self.free, ready)
        end = begin + minutes
        if len(self._pairs) == 1:
            self.free = end
        else:
            self._give(ready, end)
        return begin, end

    def _give(self, ready: Minutes, end: Minutes) -> None:
        pair = np.maximum((self._pairs <= ready).sum(axis=0) - 1, 0)
        self._pairs[pair, self._days] = end
        self._pairs.sort(axis=0)
        self.free = self._pairs[0].copy()
