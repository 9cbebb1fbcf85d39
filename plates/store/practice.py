"""The store room of the practice studio: invented batches, a bath with its readings, supplies. Prices are invented."""

from dataclasses import replace
from datetime import datetime, timedelta

from plates.bench.models import Bench, PlateSize
from plates.chemistry.stock.shelf import KEEPING
from plates.store.models import SupplyEvent
from plates.store.services import batches, baths, supplies
from plates.store.services.baths import Done, Reading
from plates.store.services.mixing import Mixing, mix
from plates.store.services.supplies import Goods, Moved

LITRE = KILOGRAM = 1_000_000  # µL, mg

# Recipe, kind, label, days ago, µL made.
MIXED = (
    ("iodised_estabrooke_27", "collodion", "C 14", 40, 500_000),
    ("iodised_estabrooke_27", "collodion", "C 15", 3, 500_000),
    ("developer_towler", "developer", "D 31", 2, 1_000_000),
    ("fixer_hunt", "fixer", "F 9", 10, 2_000_000),
    ("varnish_sandarac_lavender", "varnish", "V 4", 60, 500_000),
)
# Name, substance, unit, pack, cents a pack.
CHEMICALS = (
    ("Ether", "ether", "ul", LITRE, 4_200),
    ("Alcohol", "ethanol", "ul", 5 * LITRE, 7_400),
    ("Pyroxylin, damped", "nitrocellulose", "mg", 50_000, 3_900),
    ("Silver nitrate", "silver_nitrate", "mg", 100_000, 14_900),
    ("Ammonium iodide", "ammonium_iodide", "mg", 100_000, 3_600),
    ("Cadmium bromide", "cadmium_bromide", "mg", 100_000, 3_200),
    ("Potassium bromide", "potassium_bromide", "mg", 250_000, 1_400),
    ("Iron sulphate", "iron_sulfate", "mg", KILOGRAM, 900),
    ("Acetic acid", "acetic_acid", "ul", LITRE, 1_300),
    ("Hypo", "sodium_thiosulfate", "mg", KILOGRAM, 700),
    ("Sandarac", "sandarac", "mg", 250_000, 2_700),
    ("Lavender oil", "lavender_oil", "ul", 100_000, 1_600),
)
# Size, pieces in a pack, cents a pack, pieces in stock.
BLANKS = (
    ("Sixth", 25, 1_500, 31),
    ("Quarter", 25, 2_100, 18),
    ("Half", 20, 2_900, 26),
    ("Whole", 10, 2_600, 4),
)


def lay_out(*, bench: Bench, now: datetime) -> None:
    """Fill the store room as a studio that has worked for some weeks, from this moment backwards."""
    for goods in _goods():
        _bought(goods, now)
    for recipe, kind, label, days, made_ul in MIXED:
        _mixed(recipe, kind, label, made_ul, now - timedelta(days=days))
    _bath(bench, now)


def _goods() -> list[tuple[Goods, int]]:
    """Everything that is kept, with how much of it came."""
    found = [
        (Goods(name, "chemical", unit, pack, cost, substance=substance, least=pack // 4), pack)
        for name, substance, unit, pack, cost in CHEMICALS
    ]
    piece = Goods("", "blank", "piece", 1, pieces_a_plate=1)
    for name, pack, cost, stock in BLANKS:
        size = PlateSize.objects.get(name=name)
        bare = replace(
            piece, name=f"Bare plates, {name.lower()}", pack=pack, pack_cost=cost, size=size, least=15
        )
        found.append((bare, stock))
    sleeves = replace(piece, name="Paper sleeves", kind="sleeve", pack=100, pack_cost=1_200, least=50)
    cases = replace(
        piece, name="Hinged cases", kind="case", pack=10, pack_cost=9_000, least=5, pieces_a_plate=0
    )
    return [*found, (sleeves, 140), (cases, 12)]


def _bought(bought: tuple[Goods, int], now: datetime) -> None:
    goods, amount = bought
    supply, came = supplies.describe(goods=goods), now - timedelta(days=180)
    moved = Moved(SupplyEvent.Kind.RECEIVED, amount, came.date(), cost=goods.pack_cost, label="No. 1")
    can = supplies.move(supply_id=supply.pk, moved=moved, operator=None, now=came)
    if goods.substance == "ether":
        opened = now - timedelta(days=150)
        supplies.see(
            supply_id=supply.pk,
            container_id=can.pk,
            kind="opened",
            on=opened.date(),
            operator=None,
            now=opened,
        )


def _mixed(recipe: str, kind: str, label: str, made_ul: int, at: datetime) -> None:
    keeping, on = KEEPING[kind], at.date()
    mixing = Mixing(
        kind=kind,
        label=label,
        made_ul=made_ul,
        mixed_on=on,
        ripe_from=on + timedelta(days=keeping.ripe_after_days),
        best_before=on + timedelta(days=keeping.best_for_days),
        recipe=recipe,
        draw=True,
    )
    batch = mix(mixing=mixing, operator=None, now=at)
    if label == "C 14":
        count = at + timedelta(days=30)
        batches.move(batch_id=batch.pk, kind="counted", amount_ul=310_000, operator=None, now=count)


def _bath(bench: Bench, now: datetime) -> None:
    """A bath at 90 g/L that has worked for a month: read three times, filtered once, brought back once."""
    at = now - timedelta(days=30)
    mixing = Mixing("bath", "Bath one", 2_000_000, at.date(), at.date(), silver_mg=180_000)
    bath = mix(mixing=mixing, operator=None, now=at)
    baths.care(batch_id=bath.pk, done=Done("in_use", bench_id=bench.pk), operator=None, now=at)
    floated = Reading(gravity_e4=10_720, scale="20/20", celsius_tenths=195, ph_hundredths=420)
    titrated = Reading(sample_ul=5000, titrant_ul=24_700, titrant_mmol_l=100, volume_ul=1_950_000)
    for days, reading in ((20, floated), (10, titrated), (1, replace(floated, gravity_e4=10_735))):
        baths.record_reading(batch_id=bath.pk, reading=reading, operator=None, now=now - timedelta(days=days))
    for days, done in ((9, Done("filtered")), (9, Done("salt", salt_mg=12_000))):
        baths.care(batch_id=bath.pk, done=done, operator=None, now=now - timedelta(days=days))
