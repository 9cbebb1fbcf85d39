"""Gate 3 as a question: does anybody wait long too often because of one more sitting?

Loads numpy; import it only where risk is asked for.
"""

from collections.abc import Sequence
from functools import lru_cache

from plates.capacity.problem.answers import Refusal, nearest
from plates.capacity.problem.bench import Bench, Day
from plates.capacity.problem.timeline import Booked
from plates.capacity.risk.assess import risk
from plates.capacity.risk.values import Chances, SitterRisk, objection

# A clear case shows in few days; only a close one is worth playing more. The same answer whoever asks.
FEW_DAYS = 1000
# Luck that falls otherwise for a sitter who has nothing to do with the new one; measured in tests/benchmarks/risk.py.
NOISE = 0.005


def waits_too_often(
    bench: Bench, day: Day, before: Sequence[Booked], after: Sequence[Booked], chances: Chances
) -> SitterRisk | None:
    """The sitter who would wait long too often once `after` is promised, or None.

    `before` are the sittings promised until now, `after` the same ones in their order, perhaps planned anew, and the
    new one last. Who waited too often already and does not wait more often by the change is no reason to refuse.
    """
    if chances.chance_limit is None:
        return None
    few = risk(bench, day, after, chances, days=FEW_DAYS)
    if objection(few, chances) is None:
        return None
    played = few if _clear(few.sitters, chances.chance_limit) else risk(bench, day, after, chances)
    if objection(played, chances) is None:
        return None
    earlier = _before(bench, day, tuple(before), chances, played.days)
    pairs = zip(played.sitters, earlier, strict=False)
    worse = [now for now, then in pairs if now.chance > then.chance + NOISE]
    over = [each for each in (*worse, played.sitters[-1]) if each.upper >= chances.chance_limit]
    return max(over, key=lambda each: each.upper, default=None)


@lru_cache(maxsize=16)
def _before(
    bench: Bench, day: Day, booked: tuple[Booked, ...], chances: Chances, days: int
) -> tuple[SitterRisk, ...]:
    """How long sitters wait without the new one: the same for each of the many starts that are asked about a day."""
    return risk(bench, day, booked, chances, days=days).sitters


def refused_for_waiting(
    bench: Bench,
    day: Day,
    before: Sequence[Booked],
    after: Sequence[Booked],
    chances: Chances,
    starts: Sequence[int] = (),
) -> Refusal | None:
    """The refusal of the last of `after` when somebody would wait too often; `starts` are known to be free."""
    sitter = waits_too_often(bench, day, before, after, chances)
    if sitter is None:
        return None
    asked = after[-1].sitting.start
    until = sitter.start + int(chances.wait_limit)
    return Refusal(asked, "waiting", sitter.start, until, None, nearest(asked, tuple(starts)))


def _clear(sitters: Sequence[SitterRisk], limit: float) -> bool:
    """Whether some sitter's chance lies so far over the limit that more days would only say it again."""
    return any(each.chance - 2 * (each.upper - each.chance) >= limit for each in sitters)
