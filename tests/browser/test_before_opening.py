"""The site on its first evening: nothing is set up yet, and nothing is for sale."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser import measures
from tests.browser.test_pages import RULES
from tests.browser.windows import Window

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def empty(chromium, site, transactional_db):
    window = Window(chromium, site, width=320, scripts=True)
    yield window
    window.close()


@pytest.mark.parametrize(
    ("address", "sentence"),
    [("/", "No sitting day is open at the moment."), ("/sit/", "No plate is for sale at the moment.")],
)
def test_an_empty_studio_says_so_on_a_sound_page(empty, address, sentence):
    answer = empty.page.goto(address)

    found = Axe().run(empty.page, options={"runOnly": RULES}).response
    assert (answer.status, found["violations"], empty.page.evaluate(measures.OVERHANG)) == (200, [], 0)
    assert sentence in empty.page.content()
