"""A whole day at a laptop with the queue and a telephone in the tent, which is without network for a good part of it.

Three sittings, four plates; one plate is given up and made again, two presses are taken back, one is made on both.
"""

import json
import re
from datetime import time, timedelta

import pytest
import time_machine
from django.urls import reverse
from playwright.sync_api import expect

from bookings.orders.selectors.account import account
from plates.bench.models import PlateEvent, PlateSlot, Stage
from tests import builders
from tests.browser import walks
from tests.browser.conftest import signed_in
from tests.browser.tent.steps import TEN, all_sent, passed, stages, step

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

# The way of every plate (common practice, no source), and what the tent calls out for it up to the wash.
WAY = ["poured", "sensitised", "exposed", "developed", "fixed", "washing", "drying", "varnished", "ready"]
TO_THE_WASH = ["Out of the bath", "Exposed", "Developed", "Fixed", "Into the wash"]


@pytest.fixture
def clock(site):
    """The studio's clock, which the test moves together with that of the telephone."""
    with time_machine.travel(TEN, tick=True) as traveller:
        yield traveller


@pytest.fixture
def day(transactional_db, clock):
    """Two plates at ten, paid in full; one at eleven, one at a quarter to twelve."""
    day = builders.a_day()
    first = builders.a_paid_order(day, sizes=("quarter", "quarter"))
    builders.pay(first, account(first).owed)
    builders.a_paid_order(day, at=time(11), sizes=("half",), name="Wren Achterberg")
    builders.a_paid_order(day, at=time(11, 45), name="Duarte Salgado")
    return day


@pytest.fixture
def laptop(open_window, site, operator, day):
    page = open_window(scripts=True, cookies=signed_in(site, operator)).page
    page.goto(reverse("studio:day", args=[day.pk]))
    return page


@pytest.fixture
def telephone(open_window, site, operator, day):
    page = open_window(scripts=True, width=360, cookies=signed_in(site, operator)).page
    page.clock.install()
    page.goto(reverse("plates:tent", args=[day.bench_day_id]))
    expect(page.locator("body")).to_have_attribute("data-shelved", "yes")
    return page


@pytest.fixture
def sent(telephone):
    """The keys of all presses that left the telephone, as often as they did."""
    keys = []
    telephone.on(
        "request",
        lambda request: request.method == "POST" and keys.append(json.loads(request.post_data)["press"]),
    )
    return keys


def press(laptop, words, *, plate, then):
    """Press on the laptop, and see the plate at its new stage."""
    walks.press(laptop, words, plate=plate)
    expect(laptop.locator("article .presses > li .stage-word").nth(plate - 1)).to_contain_text(f": {then}")


def take_in_hand(telephone, plate):
    """Choose one of the day's plates (1 is the first) in the tent."""
    slot = PlateSlot.objects.order_by("job__starts_at", "position")[plate - 1]
    telephone.locator(f"#strip a[data-slot='{slot.pk}']").click()


def on_the_telephone(telephone):
    words = telephone.evaluate(
        "tent.store.day().plates.map(plate => [plate.slot, tent.store.day().stages[tent.stage(plate)]])"
    )
    return [(word or "not poured").lower() for _, word in sorted(words, key=lambda each: each[0])]


def same_on_both(telephone, laptop):
    """The stage of each plate, in the order of the day, when the laptop has come to show what the telephone does."""
    words = on_the_telephone(telephone)
    shown = [re.compile(f": {word} since" if word != "not poured" else r"^\w+$") for word in words]
    expect(laptop.locator("article .presses > li .stage-word")).to_have_text(shown)
    return words


def the_first_plate_is_made_by_both(telephone, laptop, clock):
    """The laptop takes it out of the bath; the telephone exposes it twice, for the first press was a slip."""
    passed(telephone, clock, minutes=4)
    step(telephone, clock, "Pour")
    all_sent(telephone)
    expect(laptop.get_by_text(re.compile("^Quarter: poured"))).to_be_visible()
    laptop.get_by_role("button", name="Arrived", exact=True).first.click()
    expect(laptop.get_by_text(re.compile("^arrived at"))).to_be_visible()
    passed(telephone, clock, minutes=5)
    press(laptop, "Out of the bath", plate=1, then="sensitised")
    passed(telephone, clock, seconds=6)
    step(telephone, clock, "Exposed")
    passed(telephone, clock, seconds=2)
    telephone.get_by_role("button", name="Take back: exposed").click()
    passed(telephone, clock, minutes=2)
    step(telephone, clock, "Exposed")
    passed(telephone, clock, minutes=2)
    step(telephone, clock, "Developed")
    all_sent(telephone)
    expect(laptop.get_by_text(re.compile("^Quarter: developed"))).to_be_visible()


def the_second_is_made_twice_without_network(telephone, laptop, clock):
    """While the telephone is cut off, the laptop presses “Fixed” too, and makes the plate of eleven by itself."""
    passed(telephone, clock, minutes=2)
    step(telephone, clock, "Fixed")
    passed(telephone, clock, seconds=10)
    press(laptop, "Fixed", plate=1, then="fixed")
    passed(telephone, clock, seconds=20)
    step(telephone, clock, "Into the wash")
    step(telephone, clock, "Pour")
    passed(telephone, clock, minutes=5)
    step(telephone, clock, "Out of the bath")
    telephone.get_by_text("Spoilt", exact=True).click()
    passed(telephone, clock, seconds=5)
    telephone.get_by_role("button", name="Fogged").click()
    passed(telephone, clock, minutes=2)
    step(telephone, clock, "Pour again")
    passed(telephone, clock, minutes=5)
    press(laptop, "Pour", plate=3, then="poured")
    for word in TO_THE_WASH:
        step(telephone, clock, word)
        passed(telephone, clock, minutes=1)
    for word, stage in zip(TO_THE_WASH, WAY[1:], strict=False):
        passed(telephone, clock, minutes=1)
        press(laptop, word, plate=3, then=stage)


def the_last_one_is_poured_by_mistake_first(telephone, clock):
    take_in_hand(telephone, 4)
    step(telephone, clock, "Pour")
    passed(telephone, clock, seconds=2)
    telephone.get_by_role("button", name="Take back: poured").click()
    for word in ("Pour", *TO_THE_WASH):
        passed(telephone, clock, minutes=1)
        step(telephone, clock, word)
    all_sent(telephone)


def everything_is_lifted_and_finished(telephone, laptop, clock):
    """The telephone lifts the plates onto the rack; the laptop does what is done in the light."""
    passed(telephone, clock, minutes=61)
    for _ in range(4):
        step(telephone, clock, "Onto the rack")
    all_sent(telephone)
    for plate in (1, 2, 3, 4):
        press(laptop, "Varnished", plate=plate, then="varnished")
        press(laptop, "Ready to collect", plate=plate, then="ready")
    for plate in (1, 2):
        press(laptop, "Hand over", plate=plate, then="handed over")


def test_a_day_on_two_screens_one_of_them_cut_off_for_a_while(telephone, laptop, sent, clock):
    the_first_plate_is_made_by_both(telephone, laptop, clock)
    telephone.context.set_offline(True)
    the_second_is_made_twice_without_network(telephone, laptop, clock)
    assert PlateEvent.objects.filter(stage="spoilt").count() == 0
    kept = telephone.evaluate("tent.store.waiting().map(press => press.press)")
    telephone.context.set_offline(False)
    telephone.evaluate("tent.store.send()")
    all_sent(telephone)

    assert telephone.evaluate("tent.store.refused()") == []
    expect(laptop.get_by_text("Spoilt before: 3")).to_be_visible()
    assert same_on_both(telephone, laptop) == ["washing"] * 3 + ["not poured"]
    the_last_one_is_poured_by_mistake_first(telephone, clock)
    everything_is_lifted_and_finished(telephone, laptop, clock)
    passed(telephone, clock, seconds=6)

    assert same_on_both(telephone, laptop) == ["handed over"] * 2 + ["ready"] * 2
    expect(telephone.get_by_role("heading", level=1)).to_have_text(
        "No plate of this day is left for the tent."
    )
    assert stages() == [
        # Exposed, back to sensitised, exposed; fixed once though it was pressed on both.
        [*WAY[:3], "sensitised", *WAY[2:], "handed_over"],
        WAY,
        ["poured", "sensitised", "spoilt"],
        [*WAY, "handed_over"],
        ["poured", "spoilt"],
        WAY,
    ]
    tapped = PlateEvent.objects.exclude(press=None).exclude(stage=Stage.HANDED_OVER)
    entered = {str(key) for key in tapped.values_list("press", flat=True)}
    # All that was pressed in the tent but the one “Fixed” that the laptop had entered meanwhile.
    assert len(kept) == len(set(kept) & entered) + 1
    assert len(entered) == len(set(sent)) - 1
    washed = PlateEvent.objects.get(plate__number=1, stage="washing")
    assert washed.at - PlateEvent.objects.get(plate__number=1, stage="fixed").at < timedelta(minutes=1)
