"""A store room for tests: batches, a bath, supplies, built through the real services."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from plates.bench.models import Bench
from plates.chemistry.recipes.scaling import line
from plates.store.models import Batch, OwnRecipe, Supply
from plates.store.services import batches, baths, recipes, supplies
from plates.store.services.baths import Done, Reading
from plates.store.services.mixing import Mixing, mix
from plates.store.services.recipes import RecipeDraft
from plates.store.services.supplies import Moved
from tests.builders import NOW

MONTH = timedelta(days=30)


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
    hypo = line("hypo", 200, "g", "sodium_thiosulfate")
    return recipes.save_recipe(
        told=RecipeDraft(name="Our fixer", kind="fixer", lines=[hypo], makes_ul=1_000_000)
    )


def a_supply(name: str = "Ether", **changes: Any) -> Supply:
    """Ether, bought by the litre for 40.00."""
    facts: dict[str, Any] = {
        "kind": "chemical", "unit": "ul", "substance": "ether", "pack": 1_000_000, "pack_cost": 4000,
    }  # fmt: skip
    return Supply.objects.create(name=name, **(facts | changes))


@dataclass
class AStore:
    """The rows that pages of a full store room are about."""

    batch: Batch
    bath: Batch
    supply: Supply


def a_full_store(bench: Bench) -> AStore:
    """Words as long as they can be: a weak bath that was read twice, ether past its test, a shortage."""
    batch = a_mixed("iodised_estabrooke_29", "collodion", "C" * 40, now=NOW - MONTH, note="n" * 500)
    batches.move(batch_id=batch.pk, kind="taken", amount_ul=1_100_000, operator=None, now=NOW, note="n" * 200)
    a_mixed("developer_towler", "developer", "D 1", now=NOW - MONTH, best_before=(NOW - MONTH / 2).date())
    bath = a_bath("B" * 40, now=NOW - MONTH, silver_mg=100_000)
    baths.care(batch_id=bath.pk, done=Done("in_use", bench_id=bench.pk), operator=None, now=NOW - MONTH)
    reading = Reading(gravity_e4=10_500, scale="20/20", celsius_tenths=180, ph_hundredths=550, note="r" * 200)
    for ago in (MONTH / 2, MONTH / 4):
        baths.record_reading(batch_id=bath.pk, reading=reading, operator=None, now=NOW - ago)
    ether = a_supply("E" * 80, least=2_000_000)
    received = Moved("received", 900_000, (NOW - 12 * MONTH).date(), label="L" * 40, note="n" * 200)
    can = supplies.move(supply_id=ether.pk, moved=received, operator=None, now=NOW - 12 * MONTH)
    opened = {"kind": "opened", "on": (NOW - 10 * MONTH).date(), "operator": None, "now": NOW - 10 * MONTH}
    supplies.see(supply_id=ether.pk, container_id=can.pk, **opened)
    return AStore(batch, bath, ether)


def some_ids() -> dict[str, int]:
    """One row of everything that an address of the store room asks for."""
    return {"recipe_id": an_own_recipe().pk, "batch_id": a_bath().pk, "supply_id": a_supply().pk}
