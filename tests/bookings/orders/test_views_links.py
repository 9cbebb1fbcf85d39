"""Links are signed: one changed character closes them, and each kind opens its own kind of page only."""

from datetime import timedelta

import pytest
from django.urls import reverse

from bookings.orders import links
from tests import builders
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

BROKEN = "This link is not complete, or it has run out. Open it again from your letter."
SITTING_PAGES = ["sitting", "sitting_calendar"]
CHECKOUT_PAGES = ["details", "deposit"]
MAKERS = dict.fromkeys(SITTING_PAGES, links.sitting_token) | dict.fromkeys(
    CHECKOUT_PAGES, links.checkout_token
)


@pytest.fixture
def order(day):
    return builders.a_placed_order(day, name="Ines Madrugada", phone="+351 555 010 010")


def get(client, page, token):
    return client.get(reverse(page, args=[token]))


def flips(token):
    """The token with one character changed, each place in turn: to another sign, and to its other case."""
    for place, sign in enumerate(token):
        for other in {"A" if sign != "A" else "B", sign.swapcase(), ":" if sign != ":" else "0"} - {sign}:
            yield token[:place] + other + token[place + 1 :]


@pytest.mark.parametrize("page", MAKERS)
def test_every_flip_of_a_single_character_closes_the_link(client, order, page):
    token = MAKERS[page](order)

    answers = {changed: get(client, page, changed).status_code for changed in flips(token)}

    assert get(client, page, token).status_code in {200, 302}
    assert len(answers) > 2 * len(token)
    assert set(answers.values()) == {410}


@pytest.mark.parametrize("page", MAKERS)
@pytest.mark.parametrize("part", [slice(0, -1), slice(1, None), slice(0, 2), slice(3, None)])
def test_a_link_that_was_not_copied_whole_says_where_to_find_it_again(client, order, page, part):
    response = get(client, page, MAKERS[page](order)[part])

    assert (response.status_code, BROKEN in Page(response).text) == (410, True)


@pytest.mark.parametrize("page", CHECKOUT_PAGES)
def test_a_sitting_link_opens_no_checkout_page(client, order, page):
    assert get(client, page, links.sitting_token(order)).status_code == 410


def test_a_sitting_link_pays_nothing(client, order, settings):
    settings.DEMO = True

    response = client.post(reverse("practice_card", args=[links.sitting_token(order)]))

    assert response.status_code == 410
    assert not order.payments.exists()


@pytest.mark.parametrize("page", SITTING_PAGES)
def test_a_checkout_link_opens_no_sitting_page(client, order, page):
    assert get(client, page, links.checkout_token(order)).status_code == 410


def test_a_checkout_link_is_good_for_three_days_to_the_second(client, order, clock):
    token = links.checkout_token(order)
    clock.shift(timedelta(days=3))

    assert get(client, "deposit", token).status_code == 200

    clock.shift(timedelta(seconds=1))
    assert get(client, "deposit", token).status_code == 410


def test_a_sitting_link_is_good_for_years(client, order, clock):
    token = links.sitting_token(order)
    clock.shift(timedelta(days=2000))

    assert get(client, "sitting", token).status_code == 200


def test_a_link_signed_with_another_secret_is_refused(client, order, settings):
    token = links.sitting_token(order)
    settings.SECRET_KEY = "another secret of the same studio, set after a leak of the first one"

    assert get(client, "sitting", token).status_code == 410


def test_a_link_signed_with_the_secret_before_this_one_still_opens(client, order, settings):
    token, settings.SECRET_KEY_FALLBACKS = links.sitting_token(order), [settings.SECRET_KEY]
    settings.SECRET_KEY = "another secret of the same studio, changed by the calendar"

    assert get(client, "sitting", token).status_code == 200


@pytest.mark.parametrize("page", SITTING_PAGES)
def test_what_the_long_lived_link_shows_names_nobody(client, order, page):
    response = get(client, page, links.sitting_token(order))

    shown = response.content.decode()
    person = ["Ines", "Madrugada", "ines@example.org", "555 010 010"]
    assert order.reference in shown
    assert [fact for fact in person if fact in shown] == []


def test_the_checkout_link_of_a_placed_order_names_nobody_either(client, order):
    response = get(client, "deposit", links.checkout_token(order))

    assert "Madrugada" not in response.content.decode()


@pytest.mark.parametrize("page", MAKERS)
def test_no_page_behind_a_link_is_kept_by_a_browser_or_a_proxy(client, order, page):
    response = get(client, page, MAKERS[page](order))

    assert {"no-store", "private"} <= {word.strip() for word in response.headers["Cache-Control"].split(",")}


@pytest.mark.parametrize("page", MAKERS)
def test_the_address_of_a_link_is_told_to_no_other_site(client, order, page):
    """A referrer may carry the token; "same-origin" sends none to others (W3C Referrer Policy, 3.3)."""
    response = get(client, page, MAKERS[page](order))

    assert response.headers["Referrer-Policy"] == "same-origin"
