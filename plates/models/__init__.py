"""Rows of the physical side: plate sizes, benches and their days, promised jobs, and the ledger of plates."""

from plates.models.bench import Bench, BenchDay
from plates.models.facts import PlateFacts
from plates.models.finishing import ClosedDay, Finishing
from plates.models.foresight import DayStarts, DayTimes, Foreseen
from plates.models.jobs import BenchJob, PlateSlot
from plates.models.ledger import Plate, PlateEvent, PlateNumber, SpoiltReason, Stage
from plates.models.sizes import PlateSize

__all__ = [
    "Bench",
    "BenchDay",
    "BenchJob",
    "ClosedDay",
    "DayStarts",
    "DayTimes",
    "Finishing",
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
