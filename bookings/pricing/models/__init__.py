from bookings.pricing.models.prices import (
    Discount,
    Extra,
    ExtraKind,
    SizePrice,
    Surcharge,
    SurchargeKind,
    TaxClass,
)
from bookings.pricing.models.terms import NoPlate, Terms

__all__ = [
    "Discount",
    "Extra",
    "ExtraKind",
    "NoPlate",
    "SizePrice",
    "Surcharge",
    "SurchargeKind",
    "TaxClass",
    "Terms",
]
