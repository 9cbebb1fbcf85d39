"""The shopping list and the cost of a plate, from rows: what is booked in the weeks ahead, what is in stock."""

from datetime import time, timedelta

import pytest

from plates.bench.models import PlateSize, SpoiltReason, Stage
from plates.ledger.services import events as ledger
from plates.store.models import StoreRoom, SupplyEvent
from plates.store.selectors.costs import costs
from plates.store.selectors.shopping import booked_work, shopping
from plates.store.services import supplies
from plates.store.services.supplies import Moved
from tests import builders
from tests.builders import NOW
from tests.builders.store import a_mixed, a_supply

pytestmark = pytest.mark.django_db

ROOM = StoreRoom(pk=1)
UNTIL = NOW.date() + timedelta(weeks=4)


def blanks(size, **changes):
    facts = {"kind": "blank", "unit": "piece", "substance": "", "pack": 10, "pack_cost": 1000}
    return a_supply(f"Bare {size}", size=builders.a_size(size), pieces_a_plate=1, **(facts | changes))


def received(supply, amount):
    moved = Moved(kind=SupplyEvent.Kind.RECEIVED, amount=amount, on=NOW.date())
    supplies.move(supply_id=supply.pk, moved=moved, operator=None, now=NOW)


def line_of(supply, **changes):
    found = shopping(room=ROOM, now=changes.get("now", NOW))
    return next(line for line in found.lines if line.supply == supply)


def test_plates_that_are_booked_are_counted_by_size_with_those_that_are_made_again():
    builders.a_paid_order(
        builders.a_day(bench=builders.a_bench(retake_chance=20)), sizes=("quarter", "quarter", "half")
    )

    work = {each.size_id: (each.plates, each.pours) for each in booked_work(now=NOW, until=UNTIL)}

    assert work == {builders.a_size("quarter").pk: (2, 2.5), builders.a_size("half").pk: (1, 1.25)}


def test_lapsed_holds_poured_plates_and_later_weeks_are_not_counted():
    day = builders.a_day()
    builders.a_held_order(day, now=NOW - timedelta(hours=2))
    builders.made_plates(builders.a_paid_order(day, at=time(12)))
    builders.a_paid_order(builders.a_day(on=UNTIL + timedelta(days=1)))

    assert booked_work(now=NOW, until=UNTIL) == []


def test_a_spoilt_plate_is_still_to_be_made():
    [plate] = builders.made_plates(builders.a_paid_order(builders.a_day()), stage=Stage.EXPOSED)
    ledger.spoil(plate_id=plate.pk, reason=SpoiltReason.FOGGED, note="", operator=None, now=NOW)

    assert [each.plates for each in booked_work(now=NOW, until=UNTIL)] == [1]


def test_bare_plates_are_bought_when_the_booked_ones_take_them_below_the_least():
    bare, others = blanks("quarter", least=5), blanks("half")
    received(bare, 6)
    builders.a_paid_order(
        builders.a_day(bench=builders.a_bench(retake_chance=0)), sizes=("quarter", "quarter")
    )

    line = line_of(bare)

    assert (line.level, line.order.need, line.order.packs, line.cost) == (6, 2, 1, 1000)
    assert line_of(others).order.need == 0


def test_silver_is_bought_for_what_the_booked_plates_carry_off():
    silver = a_supply("Silver nitrate", unit="mg", substance="silver_nitrate", pack=100_000)
    builders.a_paid_order(builders.a_day(bench=builders.a_bench(retake_chance=0)))

    # A quarter plate, 89.11 cm² (trade facts s.1), at 1.38 mg/cm² by the model of s.3 at 90 g/L: 123 mg.
    assert line_of(silver).order.need == 123


def test_chemicals_are_bought_for_what_is_not_mixed_yet():
    hypo = a_supply("Hypo", unit="mg", substance="sodium_thiosulfate", pack=1_000_000)
    fixer = a_mixed("fixer_hunt", "fixer", "F 1", made_ul=1_000)
    builders.a_paid_order(builders.a_day(bench=builders.a_bench(retake_chance=0)))

    # 89.11 cm² take 8.911 mL, of which 1 mL is there; 199.55 g/L (R10 of s.5, C).
    assert line_of(hypo).order.need == pytest.approx(7.911 * 199.55, abs=1)
    assert fixer.made_ul == 1000


def test_the_whole_list_adds_up_what_has_a_price():
    blanks("quarter", least=5)
    a_supply("Sleeves", kind="sleeve", unit="piece", substance="", pack=50, pack_cost=None, least=1)

    found = shopping(room=ROOM, now=NOW)

    assert (found.cost, found.unpriced) == (1000, True)


def cost_of(size):
    return next(each for each in costs(room=ROOM) if each.size == builders.a_size(size))


def test_a_plate_costs_its_pieces_and_its_share_of_the_bottles():
    blanks("quarter")
    a_supply("Silver nitrate", unit="mg", substance="silver_nitrate", pack=100_000, pack_cost=10_000)
    a_supply("Hypo", unit="mg", substance="sodium_thiosulfate", pack=1_000_000, pack_cost=1_000)
    a_mixed("fixer_hunt", "fixer", "F 1")

    cost = cost_of("quarter")

    # 100 for the bare plate, 123 mg of silver nitrate at 0.1, 8.911 mL of fixer with 1.778 g of hypo at 0.001.
    assert cost.a_plate == round(100 + 12.3 + 1.8)
    assert cost.unknown == ["Collodion", "Developer", "Varnish"]


def test_spoilt_plates_are_paid_by_those_that_were_kept():
    blanks("quarter")
    order = builders.a_paid_order(builders.a_day(), sizes=("quarter", "quarter"))
    first, _ = builders.made_plates(order, stage=Stage.EXPOSED)
    ledger.spoil(plate_id=first.pk, reason=SpoiltReason.FOGGED, note="", operator=None, now=NOW)

    cost = cost_of("quarter")

    assert (cost.poured, cost.kept, cost.a_plate, cost.a_kept_plate) == (2, 1, 100, 200)


def test_a_size_without_bare_plates_in_stock_says_so():
    builders.a_size("quarter")

    assert cost_of("quarter").unknown[0] == "Bare plates"
    assert cost_of("quarter").a_kept_plate is None
    assert PlateSize.objects.count() == 1
