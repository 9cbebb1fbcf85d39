"""A plate made in the tent, press by press."""

import pytest
from playwright.sync_api import expect

from plates.tent.clocks import clocks, read_clock
from tests.browser.tent.steps import WAY, all_sent, passed, stages, step

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def test_a_plate_is_made_by_the_space_bar_alone(tent, clock):
    page = tent().page
    for word in ("Pour", "Out of the bath", "Exposed", "Developed", "Fixed", "Into the wash"):
        expect(page.locator("button.step")).to_have_text(word)
        passed(page, clock, seconds=1)
        page.keyboard.press("Space" if word != "Fixed" else "Enter")

    expect(page.get_by_role("heading", level=1)).to_have_text("To pour")
    all_sent(page)
    assert stages() == [WAY]


def test_a_second_tap_of_a_wet_glove_is_not_a_second_step(tent):
    page = tent().page

    page.locator("button.step").dblclick()

    expect(page.locator("button.step")).to_have_text("Out of the bath")
    all_sent(page)
    assert stages() == [["poured"]]


def test_a_press_is_taken_back_with_one_press_for_half_a_minute(tent, clock):
    page = tent().page
    step(page, clock, "Pour")
    expect(page.get_by_role("heading", level=1)).to_have_text("Plate 1")
    step(page, clock, "Out of the bath")

    passed(page, clock, seconds=1)
    page.get_by_role("button", name="Take back: sensitised").click()

    expect(page.locator("button.step")).to_have_text("Out of the bath")
    all_sent(page)
    assert stages() == [["poured", "sensitised", "poured"]]
    passed(page, clock, minutes=1)
    expect(page.get_by_role("button", name="Take back")).to_be_hidden()


def test_a_telephone_shakes_when_a_clock_comes_to_its_last_minute(tent, clock):
    page = tent().page
    page.evaluate("navigator.vibrate = () => { document.body.dataset.shaken = 'yes' }")
    page.get_by_text("The tent", exact=True).click()
    page.get_by_role("button", name="Vibration: off").click()
    page.evaluate("delete document.body.dataset.shaken")
    step(page, clock, "Pour")
    # Two minutes to pour and five in the bath at most, the planning minutes of design s.3.
    passed(page, clock, minutes=5, seconds=55)
    expect(page.locator("#clock-level")).to_have_text("go")
    page.evaluate("delete document.body.dataset.shaken")

    passed(page, clock, seconds=10)

    expect(page.locator("#clock-level")).to_have_text("soon")
    expect(page.locator("body")).to_have_attribute("data-shaken", "yes")


def test_two_telephones_on_one_day_see_each_other(tent, clock):
    one, other = tent().page, tent().page
    step(one, clock, "Pour")
    all_sent(one)

    passed(other, clock, seconds=6)

    expect(other.locator("button.step")).to_have_text("Out of the bath")


def test_sound_and_vibration_are_off_until_they_are_switched_on(tent):
    page = tent().page
    page.get_by_text("The tent", exact=True).click()
    sound = page.get_by_role("button", name="Sound: off")
    sound.click()
    expect(page.get_by_role("button", name="Sound: on")).to_have_attribute("aria-pressed", "true")

    page.reload()
    page.get_by_text("The tent", exact=True).click()

    expect(page.get_by_role("button", name="Sound: on")).to_be_visible()
    expect(page.get_by_role("button", name="Vibration: off")).to_be_visible()


def test_without_scripts_a_plate_goes_up_to_the_rack_by_forms(tent):
    page = tent(scripts=False).page
    for word in ("Pour", "Out of the bath", "Exposed", "Developed", "Fixed", "Into the wash"):
        expect(page.locator("button.step")).to_have_text(word)
        page.locator("button.step").click()

    expect(page.get_by_role("heading", level=1)).to_have_text("To pour")
    assert stages() == [WAY]


def test_the_telephone_counts_as_the_studio_does(tent, clock, day):
    """Every clock at every edge of its span, read by both."""
    page = tent().page
    rows = clocks(day.bench.as_capacity().timings)
    edges = {
        (stage, second + shift)
        for stage, row in rows.items()
        for second in (0, row.least, row.most or 0, (row.most or 0) - 60)
        for shift in (-1, 0, 1)
    }

    told = {
        (stage, seconds): page.evaluate(
            "([clock, seconds]) => tent.read(clock, seconds)", [rows[stage].as_json(), seconds]
        )
        for stage, seconds in edges
    }

    mine = {key: read_clock(rows[key[0]], key[1]) for key in edges}
    assert told == {
        key: {"level": each.level, "seconds": each.seconds, "words": each.words} for key, each in mine.items()
    }
