"""Gate 3: how likely sitters wait long and a day runs late, with retakes, late sitters and no-shows.

Loads numpy; import it only where risk is asked for.
"""

from collections.abc import Sequence

import numpy as np

from plates.capacity.problem.bench import Bench, Day
from plates.capacity.problem.timeline import Booked
from plates.capacity.problem.values import whole
from plates.capacity.risk.draws import Days, Key, drawn, keys_of
from plates.capacity.risk.ordering import order_of
from plates.capacity.risk.simulate import play
from plates.capacity.risk.state import Played
from plates.capacity.risk.values import SURE, Chances, Estimate, Risk, SitterRisk, estimated

DAYS = 5000
MOST_DAYS = 100_000
SEED = 1851


def risk(
    bench: Bench,
    day: Day,
    booked: Sequence[Booked],
    chances: Chances,
    *,
    days: int = DAYS,
    seed: int = SEED,
    keys: Sequence[Key] | None = None,
) -> Risk:
    """What happens on so many days with these sound plans.

    The same seed brings each sitting the same luck, named by `keys` (by default its start, see risk_luck.keys_of),
    whatever else is booked. CapacityValueError for a number of days or a seed that cannot be.
    """
    whole("days", days, 1, MOST_DAYS)
    whole("seed", seed, 0, 2**63)
    if not booked:
        none = estimated(0, days)
        return Risk((), none, none, none, none, float(day.opens), float(day.opens), days)
    luck = drawn(bench.timings, booked, keys or keys_of(booked, day.opens), chances, days, seed)
    played = play(bench, day.opens, order_of(bench, booked), luck)
    return _counted(day, played, chances, days)


def _counted(day: Day, played: Played, chances: Chances, days: int) -> Risk:
    times, plates = played.times, range(len(played.plates))
    came = [sitter.came for sitter in played.luck]
    gone = [played.gone[number] for number in range(len(came))]
    ends = np.where(came, gone, float(day.opens)).max(axis=0)
    middle, late = np.quantile(ends, (0.5, SURE))
    return Risk(
        sitters=tuple(_sitter(played, number, chances) for number in range(len(came))),
        late_close=_share(ends > day.closes),
        racks=_any(played, [played.racked[plate] > day.racks_empty_by for plate in plates]),
        wet=_any(played, [played.wet[plate] > times.wet_window for plate in plates]),
        long_bath=_any(played, [played.bath[plate] > times.sensitise.most for plate in plates]),
        ends=float(middle),
        ends_late=float(late),
        days=days,
    )


def _sitter(played: Played, number: int, chances: Chances) -> SitterRisk:
    """Counted on the days on which the sitter came."""
    luck, start = played.luck[number], played.order.starts[number]
    waits = (played.settled[number] - np.maximum(luck.arrived, start))[luck.came]
    long = estimated(int((waits > chances.wait_limit).sum()), len(waits))
    return SitterRisk(start, long.chance, long.upper, float(waits.mean()) if len(waits) else 0.0)


def _any(played: Played, happened: Sequence[Days]) -> Estimate:
    """How often it happened to any plate of a sitter who came."""
    came = [played.luck[own.sitting].came for own in played.order.plates]
    return _share(np.any(np.logical_and(came, happened), axis=0))


def _share(happened: Days) -> Estimate:
    return estimated(int(happened.sum()), len(happened))
