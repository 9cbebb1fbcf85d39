"""What is for sale, and for how much."""

from datetime import date

from bookings.pricing.models import Discount, Extra, ExtraKind, SizePrice, Surcharge, SurchargeKind, TaxClass
from plates.bench.models import PlateSize

# Sides in millimetres (inches x 25.4), wash places, price in cents, tax included.
SIZES = {
    "sixth": ("69.85", "82.55", 1, 6500),
    "quarter": ("82.55", "107.95", 1, 8500),
    "half": ("107.95", "139.7", 1, 12500),
    "whole": ("165.1", "215.9", 2, 19500),
}


def a_tax_class() -> TaxClass:
    return TaxClass.objects.get_or_create(name="Standard", defaults={"category": "S", "rate_bp": 2300})[0]


def a_size(name: str = "quarter") -> PlateSize:
    """A plate size with its price."""
    width, height, wash_places, amount = SIZES[name]
    size, _ = PlateSize.objects.get_or_create(
        name=name, defaults={"width_mm": width, "height_mm": height, "wash_places": wash_places}
    )
    SizePrice.objects.get_or_create(
        size=size, holds_from=date(2026, 1, 1), defaults={"amount": amount, "tax_class": a_tax_class()}
    )
    size.refresh_from_db()
    return size


def an_extra(name: str = "Velvet case", kind: str = ExtraKind.CASE, amount: int = 3000) -> Extra:
    facts = {"kind": kind, "amount": amount, "tax_class": a_tax_class()}
    return Extra.objects.get_or_create(name=name, defaults=facts)[0]


def a_surcharge(kind: str = SurchargeKind.SITTER, **changes: object) -> Surcharge:
    """15.00 for each further sitter, at every venue."""
    facts: dict[str, object] = {"amount": 1500, "tax_class": a_tax_class(), "holds_from": date(2026, 1, 1)}
    return Surcharge.objects.create(kind=kind, **(facts | changes))


def a_discount(code: str = "HARBOUR10", **changes: object) -> Discount:
    """A tenth off, since January and without end."""
    facts: dict[str, object] = {"text": "Neighbours", "share_bp": 1000, "holds_from": date(2026, 1, 1)}
    return Discount.objects.create(code=code, **(facts | changes))
