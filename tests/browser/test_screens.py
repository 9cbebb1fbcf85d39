"""Two screens of the same day: what is pressed on one is on the other within two seconds."""

import re

import pytest
from playwright.sync_api import expect

from tests import builders
from tests.browser import conftest, walks

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

# Two seconds between two questions, and what the answer and a loaded machine take on top.
SOON = 6_000


@pytest.fixture
def screens(open_window, site, operator):
    """A telephone and a laptop, both signed in and looking at the queue of a day with one sitting."""
    day = builders.a_day()
    builders.a_paid_order(day)
    cookies = conftest.signed_in(site, operator)
    opened = [open_window(scripts=True, width=width, cookies=cookies) for width in (360, 1280)]
    for window in opened:
        window.page.goto(f"/studio/day/{day.pk}/")
    return opened


def test_a_press_on_the_telephone_is_on_the_laptop_without_reloading(screens):
    telephone, laptop = (window.page for window in screens)
    laptop.evaluate("window.sameDocument = true")

    walks.press(telephone, "Pour", plate=1)

    expect(laptop.get_by_text(re.compile("^Quarter: poured"))).to_be_visible(timeout=SOON)
    assert laptop.evaluate("window.sameDocument")


def test_a_mark_on_the_laptop_is_on_the_telephone_and_so_is_its_taking_back(screens):
    telephone, laptop = (window.page for window in screens)

    laptop.get_by_role("button", name="Arrived", exact=True).click()
    expect(telephone.get_by_text(re.compile("^arrived at"))).to_be_visible(timeout=SOON)

    telephone.get_by_role("button", name="Take “arrived” back").click()
    expect(laptop.get_by_role("button", name="Arrived", exact=True)).to_be_visible(timeout=SOON)


def test_reading_anew_keeps_the_focus_where_it_was(screens):
    telephone, laptop = (window.page for window in screens)
    laptop.get_by_role("button", name="Arrived", exact=True).focus()

    walks.press(telephone, "Pour", plate=1)
    expect(laptop.get_by_text(re.compile("^Quarter: poured"))).to_be_visible(timeout=SOON)

    expect(laptop.get_by_role("button", name="Arrived", exact=True)).to_be_focused()


def test_a_screen_that_is_cut_off_says_that_it_may_be_out_of_date(screens):
    _, laptop = screens
    notice = laptop.page.get_by_text("what stands here may be out of date")
    expect(notice).to_be_hidden()

    laptop.context.set_offline(True)
    expect(notice).to_be_visible(timeout=SOON)

    laptop.context.set_offline(False)
    expect(notice).to_be_hidden(timeout=SOON)
