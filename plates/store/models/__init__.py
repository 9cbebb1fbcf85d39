from plates.store.models.batches import Batch, BatchEvent, Ended, OwnRecipe, Solution
from plates.store.models.baths import BathCare, BathReading
from plates.store.models.store_room import StoreRoom
from plates.store.models.supplies import Supply, SupplyEvent
from plates.store.models.waste import ClearingTime, WasteContainer, WasteEntry

__all__ = [
    "Batch",
    "BatchEvent",
    "BathCare",
    "BathReading",
    "ClearingTime",
    "Ended",
    "OwnRecipe",
    "Solution",
    "StoreRoom",
    "Supply",
    "SupplyEvent",
    "WasteContainer",
    "WasteEntry",
]
