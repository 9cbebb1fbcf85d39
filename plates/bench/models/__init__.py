from plates.bench.models.bench import Bench, BenchDay
from plates.bench.models.chemistry import BathRule
from plates.bench.models.facts import PlateFacts
from plates.bench.models.jobs import BenchJob, PlateSlot
from plates.bench.models.plates import Plate, PlateEvent, PlateNumber, SpoiltReason, Stage
from plates.bench.models.sizes import PlateSize
from plates.bench.models.start_times import DayStarts, DayTimes, Foreseen

__all__ = [
    "BathRule",
    "Bench",
    "BenchDay",
    "BenchJob",
    "DayStarts",
    "DayTimes",
    "Foreseen",
    "Plate",
    "PlateEvent",
    "PlateFacts",
    "PlateNumber",
    "PlateSize",
    "PlateSlot",
    "SpoiltReason",
    "Stage",
]
