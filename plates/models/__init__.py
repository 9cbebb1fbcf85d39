"""Rows of the physical side: plate sizes, benches and days, promised jobs, the ledger of plates, the store room."""

from plates.models.batches import Batch, BatchEvent, Ended, OwnRecipe, Solution
from plates.models.baths import BathCare, BathReading
from plates.models.bench import Bench, BenchDay
from plates.models.bench_chemistry import BathRule
from plates.models.clearing import ClearingTime
from plates.models.facts import PlateFacts
from plates.models.finishing import ClosedDay, Finishing
from plates.models.foresight import DayStarts, DayTimes, Foreseen
from plates.models.jobs import BenchJob, PlateSlot
from plates.models.ledger import Plate, PlateEvent, PlateNumber, SpoiltReason, Stage
from plates.models.sizes import PlateSize
from plates.models.store_room import StoreRoom
from plates.models.supplies import Supply, SupplyEvent
from plates.models.waste import WasteContainer, WasteEntry

__all__ = [
    "Batch",
    "BatchEvent",
    "BathCare",
    "BathReading",
    "BathRule",
    "Bench",
    "BenchDay",
    "BenchJob",
    "ClearingTime",
    "ClosedDay",
    "DayStarts",
    "DayTimes",
    "Ended",
    "Finishing",
    "Foreseen",
    "OwnRecipe",
    "Plate",
    "PlateEvent",
    "PlateFacts",
    "PlateNumber",
    "PlateSize",
    "PlateSlot",
    "Solution",
    "SpoiltReason",
    "Stage",
    "StoreRoom",
    "Supply",
    "SupplyEvent",
    "WasteContainer",
    "WasteEntry",
]
