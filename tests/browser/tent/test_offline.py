"""The tent without network and with a bad one: each press is in the ledger exactly once, and none is lost."""

import re
from datetime import timedelta
from random import Random

import pytest
from django.urls import reverse
from playwright.sync_api import expect

from plates.bench.models import Plate, PlateEvent, PlateSlot
from plates.ledger.services import events as ledger
from tests import builders
from tests.browser.conftest import signed_in
from tests.browser.tent.steps import TEN, all_sent, passed, stages, step

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def test_without_network_a_whole_day_is_worked_and_sent_once_each(tent, clock, day):
    """Thirty-six minutes without network, one plate given up and made again, one press taken back."""
    window = tent()
    page = window.page
    expect(page.locator("body")).to_have_attribute("data-shelved", "yes")
    window.context.set_offline(True)
    second = PlateSlot.objects.order_by("job__starts_at", "position")[1]

    step(page, clock, "Pour")
    passed(page, clock, minutes=5)
    step(page, clock, "Out of the bath")
    passed(page, clock, minutes=2)
    page.get_by_text("Spoilt", exact=True).click()
    page.get_by_role("button", name="Fogged").click()
    step(page, clock, "Pour again")
    passed(page, clock, minutes=6)
    step(page, clock, "Out of the bath")
    passed(page, clock, seconds=1)
    page.get_by_role("button", name="Take back").click()
    passed(page, clock, minutes=1)
    for word in ("Out of the bath", "Exposed", "Developed", "Fixed", "Into the wash"):
        step(page, clock, word)
        passed(page, clock, minutes=1)
    page.reload()
    expect(page.locator("#network")).to_contain_text("No network: 11 presses kept in this telephone")
    # The worker has no network either: what is not in its copy does not come.
    assert page.evaluate("fetch('/studio/').then(answer => answer.status, () => 0)") == 0
    expect(page.locator("#hand-place")).to_have_text("2 of 2")
    step(page, clock, "Pour")
    passed(page, clock, minutes=17)
    expect(page.locator("#clock-level")).to_have_text("late")
    step(page, clock, "Out of the bath")
    assert PlateEvent.objects.count() == 0
    keys = page.evaluate("tent.store.waiting().map(press => press.press)")

    window.context.set_offline(False)
    page.evaluate("tent.store.send()")

    all_sent(page)
    assert page.evaluate("tent.store.refused()") == []
    assert stages() == [
        ["poured", "sensitised", "spoilt"],
        ["poured", "sensitised", "poured", "sensitised", "exposed", "developed", "fixed", "washing"],
        ["poured", "sensitised"],
    ]
    assert len(keys) == 13
    assert sorted(str(key) for key in PlateEvent.objects.values_list("press", flat=True)) == sorted(keys)
    # Under the times when they were made: the second plate waited seventeen minutes in the bath.
    poured, out = Plate.objects.get(slot=second).events.order_by("id")
    assert timedelta(minutes=17) <= out.at - poured.at < timedelta(minutes=18)
    expect(page.locator("#network")).to_be_hidden()
    expect(page.get_by_role("heading", level=1)).to_have_text("Plate 3")


def press_at_random(page, clock, luck):
    """One press of a hasty operator on whatever the page offers; the name of what was pressed."""
    passed(page, clock, seconds=luck.choice([1, 5, 20, 90]))
    what = luck.choice(["step"] * 6 + ["undo"] * 3 + ["spoil", "other"])
    if what == "undo" and page.locator("#undo").is_visible():
        page.locator("#undo button").click()
    elif what == "spoil" and page.locator("#spoil").is_visible():
        page.locator("#spoil summary").click()
        page.get_by_role("button", name="The sitter moved").click()
    elif what == "other" and page.locator("#strip a").count():
        page.locator("#strip a").nth(luck.randrange(page.locator("#strip a").count())).click()
    elif page.locator("button.step").is_visible():
        page.locator("button.step").click()


@pytest.mark.parametrize("seed", [17])
def test_whatever_is_pressed_without_network_comes_out_as_the_telephone_drew_it(tent, clock, seed):
    window, luck = tent(), Random(seed)
    page = window.page
    expect(page.locator("body")).to_have_attribute("data-shelved", "yes")
    window.context.set_offline(True)
    for _ in range(35):
        press_at_random(page, clock, luck)
    drawn = page.evaluate(
        "tent.store.day().plates.map(plate => [plate.slot, plate.events.map(each => each[0])])"
    )
    keys = page.evaluate("tent.store.waiting().map(press => press.press)")

    window.context.set_offline(False)
    page.evaluate("tent.store.send()")

    all_sent(page)
    assert page.evaluate("tent.store.refused()") == []
    told = page.evaluate(
        "tent.store.day().plates.map(plate => [plate.slot, plate.events.map(each => each[0])])"
    )
    assert sorted(told) == sorted(drawn)
    assert sorted(map(str, PlateEvent.objects.values_list("press", flat=True))) == sorted(keys)
    assert len(keys) > 20


def test_two_windows_of_one_telephone_agree_at_once(tent, clock):
    window = tent()
    other = window.context.new_page()
    other.goto(window.page.url)

    step(window.page, clock, "Pour")
    all_sent(window.page)

    expect(other.locator("button.step")).to_have_text("Out of the bath", timeout=3000)
    expect(other.get_by_role("heading", level=1)).to_have_text("Plate 1", timeout=3000)


def test_a_lost_answer_is_asked_for_again_and_counts_once(tent, clock):
    page = tent().page
    lost = []

    def lose_the_first(route):
        if lost:
            return route.continue_()
        lost.append(route.fetch())
        return route.abort()

    page.route("**/press/", lose_the_first)
    step(page, clock, "Pour")
    expect(page.locator("#network")).to_contain_text("1 press kept in this telephone")
    assert (lost[0].status, stages()) == (200, [["poured"]])

    passed(page, clock, seconds=6)

    all_sent(page)
    assert stages() == [["poured"]]


def test_a_refused_press_is_told_and_the_day_shown_as_it_is(tent, clock):
    window = tent()
    page = window.page
    page.wait_for_load_state("networkidle")
    window.context.set_offline(True)
    step(page, clock, "Pour")
    slot = PlateSlot.objects.order_by("job__starts_at", "position").first()
    ledger.pour(slot_id=slot.pk, operator=None, now=TEN)

    window.context.set_offline(False)
    page.evaluate("tent.store.send()")

    expect(page.get_by_role("alert")).to_contain_text(
        re.compile(r"^Not entered \(pour, .*A plate for this place in the order is already being made\.")
    )
    expect(page.locator("button.step")).to_have_text("Out of the bath")
    assert stages() == [["poured"]]
    page.get_by_role("button", name="Seen").click()
    expect(page.get_by_role("alert")).to_be_empty()


def test_who_was_signed_out_meanwhile_loses_no_press(tent, clock, site, operator):
    window = tent()
    page = window.page
    page.wait_for_load_state("networkidle")
    window.context.clear_cookies()
    step(page, clock, "Pour")
    expect(page.locator("#network")).to_contain_text("Signed out: 1 press kept in this telephone.")
    assert PlateEvent.objects.count() == 0

    window.context.add_cookies(signed_in(site, operator))
    passed(page, clock, seconds=6)

    all_sent(page)
    assert stages() == [["poured"]]


def test_what_another_day_left_in_the_telephone_is_sent_too(tent, day, clock):
    other = builders.a_day(on=builders.SATURDAY + timedelta(days=1)).bench_day
    window = tent()
    page = window.page
    expect(page.locator("body")).to_have_attribute("data-shelved", "yes")
    window.context.set_offline(True)
    step(page, clock, "Pour")
    expect(page.locator("#network")).to_contain_text("No network")
    window.context.set_offline(False)

    page.goto(reverse("plates:tent", args=[other.pk]))

    all_sent(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("No plate of this day is left for the tent.")
    assert stages() == [["poured"]]
