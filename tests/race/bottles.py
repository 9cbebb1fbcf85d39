"""A race for the last bottle of collodion: each wants a plate on another day, so no lock of a day stands between."""

from functools import partial

from plates.bench.models import BenchJob
from plates.store.models import Solution
from tests import builders
from tests.builders import NOW
from tests.builders.store import a_batch
from tests.race.layouts import World, some_days
from tests.race.selling import _hold
from tests.race.worker import Scene

CONTENDERS = 6
PLATES = 2
# A quarter plate of 82.55 mm by 107.95 mm at 0.03 mL/cm² takes 2.674 mL, rounded up: two take 5.348 mL.
BOTTLE_UL = 5_400


def _one_bottle() -> World:
    builders.a_size("quarter")
    bench = builders.a_bench(retake_chance=0)
    a_batch(Solution.COLLODION, "C 1", made_ul=BOTTLE_UL)
    return {"days": [day.pk for day in some_days(CONTENDERS, bench)]}


def _pour(world: World, number: int):
    return [partial(_hold, world["days"][number])]


def _sold(world: World) -> World:
    return {"sold": BenchJob.objects.promised(NOW).count()}


SCENES = {"one_bottle": Scene(_one_bottle, _pour, _sold, CONTENDERS)}
