"""Pure red on black in every state of the dark tent: each pixel of each screenshot has green = blue = 0.

Collodion sees up to about 500 nm (quality-bars s.3.6), so nothing but red may be asked of the screen. Screenshots are
taken at twice the size, with scroll bars shown, as a laptop would show them.
"""

from datetime import timedelta
from io import BytesIO

import numpy
import pytest
import time_machine
from django.urls import reverse
from PIL import Image

from plates.bench.models import Plate, PlateSize, PlateSlot, Stage
from tests import builders, machines
from tests.browser import measures
from tests.browser.conftest import ARGUMENTS, SURROUNDINGS, signed_in
from tests.browser.tent.steps import TEN

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

LONG = "Featherstonehaugh-Wolfeschlegelsteinhausen plate"[:40]
SPOIL = "#spoil summary"


@pytest.fixture(scope="module")
def with_bars(chromium):
    """A browser that shows its scroll bars, which Playwright hides otherwise."""
    browser = chromium.browser_type.launch(
        executable_path=machines.chromium(),
        args=ARGUMENTS,
        env=SURROUNDINGS,
        ignore_default_args=["--hide-scrollbars"],
    )
    yield browser
    browser.close()


@pytest.fixture
def day(transactional_db, site):
    with time_machine.travel(TEN, tick=True):
        day = builders.a_day()
        builders.a_paid_order(day, sizes=("quarter", "half", "quarter", "sixth"))
        PlateSize.objects.filter(name="half").update(name=LONG)
        yield day.bench_day


@pytest.fixture
def page(with_bars, site, day, operator):
    context = with_bars.new_context(
        base_url=site, viewport={"width": 360, "height": 640}, device_scale_factor=2, color_scheme="light"
    )
    context.set_default_timeout(10_000)
    context.add_cookies(signed_in(site, operator))
    page = context.new_page()
    page.tent = reverse("plates:tent", args=[day.pk])
    yield page
    context.close()


def brightest(page):
    """The largest red, green and blue of what is on the screen, the whole page and the window as it stands."""
    shots = [page.screenshot(full_page=True), page.screenshot()]
    pictures = [numpy.asarray(Image.open(BytesIO(shot)).convert("RGB")) for shot in shots]
    return tuple(int(max(picture[:, :, channel].max() for picture in pictures)) for channel in range(3))


def made(position, stage, minutes_ago=0):
    slot = PlateSlot.objects.get(position=position)
    return builders.made_plate(slot, stage, TEN - timedelta(minutes=minutes_ago))


def idle(page):
    page.goto(page.tent)


def late_soon_and_waiting(page):
    made(1, Stage.POURED, 30)
    made(2, Stage.SENSITISED, 7)
    made(3, Stage.WASHING, 10)
    page.goto(page.tent)
    page.locator(".clock[data-level=late]").wait_for()


def hovered(page):
    idle(page)
    page.locator("button.step").hover()


def hovered_strip(page):
    late_soon_and_waiting(page)
    page.locator("#strip a").last.hover()


def held_down(page):
    idle(page)
    page.locator("button.step").hover()
    page.mouse.down()


def focused(page):
    idle(page)
    page.locator("button.step").focus()
    page.keyboard.press("Tab")
    page.keyboard.press("Shift+Tab")


def focused_summary(page):
    made(1, Stage.POURED)
    idle(page)
    page.locator(SPOIL).focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")


def focused_link(page):
    late_soon_and_waiting(page)
    page.locator("#strip a[data-level=wait]").first.focus()
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Tab")


def everything_open(page):
    made(1, Stage.POURED)
    idle(page)
    page.evaluate(measures.OPEN_ALL)


def disabled(page):
    everything_open(page)
    page.evaluate("document.querySelectorAll('button').forEach(each => each.disabled = true)")


def switched_on(page):
    everything_open(page)
    page.locator("#sound").click()
    page.locator("#shake").click()


def selected(page):
    late_soon_and_waiting(page)
    page.evaluate(measures.OPEN_ALL)
    page.keyboard.press("Control+A")
    assert "Plate" in page.evaluate("getSelection().toString()")


def refused(page):
    idle(page)
    page.context.set_offline(True)
    page.locator("button.step").click()
    made(1, Stage.POURED)
    page.context.set_offline(False)
    page.evaluate("tent.store.send()")
    page.locator(".refusal").wait_for()


def no_network(page):
    idle(page)
    page.context.set_offline(True)
    page.locator("button.step").click()
    page.get_by_text("1 press kept in this telephone").wait_for()


def visited(page):
    page.goto(reverse("plates:tent_light"))
    everything_open(page)


def full_screen(page):
    everything_open(page)
    page.locator("#full").click()
    page.wait_for_function("document.fullscreenElement !== null")


def nothing_left(page):
    for position in range(1, 5):
        made(position, Stage.READY)
    idle(page)


def light(page):
    page.goto(reverse("plates:tent_light"))


def light_selected(page):
    light(page)
    page.keyboard.press("Control+A")


STATES = [
    idle, late_soon_and_waiting, hovered, hovered_strip, held_down, focused, focused_summary, focused_link,
    everything_open, disabled, switched_on, selected, refused, no_network, visited, full_screen,
    nothing_left, light, light_selected,
]  # fmt: skip


@pytest.mark.parametrize("reach", STATES, ids=lambda state: state.__name__)
def test_every_pixel_is_pure_red_or_black(page, reach):
    reach(page)

    assert brightest(page) == (255, 0, 0)


def test_a_grey_bar_would_be_seen(page):
    """The scan has power: one light pixel fails it."""
    idle(page)
    page.evaluate("document.querySelector('h1').style.color = '#ff0100'")

    assert brightest(page) == (255, 1, 0)


def test_without_scripts_it_is_as_red(with_bars, site, operator, day):
    context = with_bars.new_context(base_url=site, java_script_enabled=False, device_scale_factor=2)
    context.add_cookies(signed_in(site, operator))
    page = context.new_page()
    made(1, Stage.POURED)
    page.goto(reverse("plates:tent", args=[day.pk]))

    found = brightest(page)

    context.close()
    assert (Plate.objects.count(), found) == (1, (255, 0, 0))
