"""A store room for tests: batches, a bath, supplies, built through the real services."""

from datetime import date, datetime
from typing import Any

from plates.chemistry.recipes import take
from plates.models import Batch, OwnRecipe, Supply
from plates.services import recipes
from plates.services.mixing import Mixing, mix
from plates.services.recipes import Told
from tests.builders import NOW


def a_batch(kind: str = "fixer", label: str = "F 1", *, now: datetime = NOW, **changes: Any) -> Batch:
    """A litre that was bought, ripe from today."""
    facts: dict[str, Any] = {"made_ul": 1_000_000, "mixed_on": now.date(), "ripe_from": now.date()}
    return mix(mixing=Mixing(kind=kind, label=label, **(facts | changes)), operator=None, now=now)


def a_bath(label: str = "Bath one", *, now: datetime = NOW, **changes: Any) -> Batch:
    """A litre and a half at 90 g/L."""
    facts: dict[str, Any] = {"made_ul": 1_500_000, "silver_mg": 135_000}
    return a_batch("bath", label, now=now, **(facts | changes))


def a_mixed(
    recipe: str, kind: str, label: str, *, now: datetime = NOW, on: date | None = None, **changes: Any
) -> Batch:
    """A litre by a printed recipe."""
    day = on or now.date()
    facts: dict[str, Any] = {"mixed_on": day, "ripe_from": day, "recipe": recipe, "made_ul": 1_000_000}
    return mix(mixing=Mixing(kind=kind, label=label, **(facts | changes)), operator=None, now=now)


def an_own_recipe() -> OwnRecipe:
    hypo = take("hypo", 200, "g", "sodium_thiosulfate")
    return recipes.keep(told=Told(name="Our fixer", kind="fixer", lines=[hypo], makes_ul=1_000_000))


def a_supply(name: str = "Ether", **changes: Any) -> Supply:
    """Ether, bought by the litre for 40.00."""
    facts: dict[str, Any] = {
        "kind": "chemical", "unit": "ul", "substance": "ether", "pack": 1_000_000, "pack_cost": 4000,
    }  # fmt: skip
    return Supply.objects.create(name=name, **(facts | changes))


def some_ids() -> dict[str, int]:
    """One row of everything that an address of the store room asks for."""
    return {"recipe_id": an_own_recipe().pk, "batch_id": a_bath().pk, "supply_id": a_supply().pk}
