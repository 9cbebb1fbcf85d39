"""A client helps herself on a small telephone without a line of script: books, opens the mailed link, moves, cancels.

320 CSS pixels: WCAG 2.2, 1.4.10 (reflow). The letter is the one that goes out; nothing is asked of the server but what
its links and buttons send.
"""

import re

import pytest
from django.utils import timezone
from playwright.sync_api import expect

from bookings.letters import mail
from bookings.letters.services import sending as notices
from bookings.orders.models import Order
from bookings.outbox.models import Notice, NoticeKind
from tests import builders
from tests.browser import walks

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

NARROW = 320


@pytest.fixture
def studio(operator):
    builders.a_size()
    return builders.a_day()


def fits(page):
    page.wait_for_load_state()  # a heading can be there before the style
    assert page.evaluate("document.documentElement.scrollWidth") <= NARROW


def booked(page):
    walks.choose_plates(page, quarter=1)
    walks.press_start(page, "10:15")
    walks.fill_details(page)
    walks.box(page, "I have read the cautions and the terms").check()
    walks.send_details(page)
    page.get_by_role("button", name=re.compile("^Pretend to pay")).click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your sitting")


def mailed_link(page):
    """Ask for the link on the page of the sitting, and read it in the letter that goes out."""
    page.get_by_role("button", name=re.compile("^See everything")).click()
    expect(page.get_by_text("A letter is on its way")).to_be_visible()
    notices.send_due(now=timezone.now())
    letter = Notice.objects.get(kind=NoticeKind.STEP_UP)
    return re.search(r"/open/\S+/", mail.message(letter).body)[0]


def test_a_client_books_opens_the_mailed_link_moves_and_cancels(open_window, studio):
    page = open_window(width=NARROW).page
    booked(page)
    link = mailed_link(page)

    page.goto(link)
    page.get_by_role("button", name="Open it now").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your order")
    fits(page)
    page.get_by_role("button", name=re.compile("^14:00")).click()
    expect(page.locator(".sum-due")).to_contain_text("14:00")
    page.get_by_label("Cancel my sitting").check()
    page.get_by_role("button", name="Cancel my sitting").click()
    expect(page.locator(".kicker").first).to_have_text("Cancelled")

    fits(page)
    assert Order.objects.get().cancelled_at is not None
    page.goto(link)
    expect(page.get_by_text("This link was used already")).to_be_visible()
