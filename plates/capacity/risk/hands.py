"""The hands of a bench on thousands of days at once: when the next pair of hands is free."""

import numpy as np

from plates.capacity.risk.draws import Minutes

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
