"""Every page in every state: for readers of screens, for fingers, for the keyboard, and to itself.

The rules are those of axe-core (WCAG 2.0 to 2.2 at A and AA, and its best practices); machine checks find only a
part of what WCAG asks for.
"""

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.core.management import call_command
from django.db import connections

from tests import builders
from tests.browser import measures
from tests.browser.card_scenes import CARD_SCENES
from tests.browser.conftest import signed_in
from tests.browser.house import furnished
from tests.browser.letter_scenes import LETTER_SCENES
from tests.browser.line_scenes import LINE_SCENES
from tests.browser.mine_scenes import MINE_SCENES
from tests.browser.scenes import SCENES
from tests.browser.store_scenes import STORE_SCENES
from tests.browser.voucher_scenes import VOUCHER_SCENES
from tests.browser.waiting_scenes import WAITING_SCENES
from tests.browser.windows import Window

# Each test keeps a transaction open, so that nothing may be asked of the site in one: `shown` asks before.
pytestmark = [pytest.mark.browser, pytest.mark.django_db]

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# Walked key by key, for each kind of page; on the others every control is given the focus.
BY_KEYS = {
    "choose",
    "times, a group with a code",
    "details",
    "mine, change",
    "queue",
    "order",
    "planner",
    "finishing",
    "line, desk",
    "tent",
}
# What passes is counted by rule and not listed element by element, which would take most of the time.
OPTIONS = {"runOnly": RULES, "resultTypes": ["violations"]}
# WCAG 2.2, 2.5.5 (AAA), in CSS pixels.
TALL = 44


@pytest.fixture(scope="module")
def house(site, django_db_blocker):
    """The furnished studio for all scenes: none of them changes it."""
    with django_db_blocker.unblock():
        house = furnished()
        house.cookies = signed_in(site, builders.an_operator())
        yield house
        call_command("flush", interactive=False, verbosity=0)
        connections.close_all()


ALL = [*SCENES, *LINE_SCENES, *VOUCHER_SCENES, *CARD_SCENES, *MINE_SCENES, *STORE_SCENES, *LETTER_SCENES]
ALL += WAITING_SCENES
# A page is loaded once for all that is asked of it: its tests stay on one worker (`tests/together.py`).
SHOWN = [pytest.param(scene, id=str(scene)) for scene in ALL]


@pytest.fixture(scope="module", params=SHOWN)
def shown(request, chromium, site, house):
    """A window that was led to the scene, with everything that can be folded out folded out."""
    scene = request.param
    window = Window(chromium, site, scripts=True, cookies=house.cookies if scene.studio else ())
    answer = scene.reach(window.page, house)
    window.status, window.studio = answer.status, scene.studio
    window.expected, window.by_keys = scene.status, scene.name in BY_KEYS
    window.page.evaluate(measures.OPEN_ALL)
    yield window
    window.close()


def test_the_scene_is_the_one_that_was_meant(shown):
    # A scene may be the page of a service that is away.
    broken = [answer for answer in shown.broken if not answer.startswith(f"{shown.expected} ")]
    assert (shown.status, broken) == (shown.expected, [])


def test_axe_finds_nothing(shown):
    found = Axe().run(shown.page, options=OPTIONS).response

    assert [
        (rule["id"], node["target"], node["failureSummary"])
        for rule in found["violations"]
        for node in rule["nodes"]
    ] == []
    assert len(found["passes"]) > 10


def test_the_keyboard_reaches_every_control_and_shows_where_it_is(shown):
    unreached, blind = (measures.walked if shown.by_keys else measures.unfocused)(shown.page)

    assert (unreached, blind) == ([], [])


def test_every_target_is_tall_enough_for_a_thumb(shown):
    assert shown.page.evaluate(measures.LOW_TARGETS, TALL) == []


def test_nothing_scrolls_sideways_on_a_narrow_telephone(shown):
    """320 CSS pixels: WCAG 2.2, 1.4.10 (reflow)."""
    shown.page.set_viewport_size({"width": 320, "height": 800})

    assert shown.page.evaluate(measures.OVERHANG) <= 0
    assert shown.page.evaluate(measures.LOW_TARGETS, TALL) == []


def test_nothing_was_asked_of_another_house_and_nothing_refused_by_the_policy(shown):
    assert (shown.strangers, shown.complaints) == ([], [])
