"""A stall with two phones, the large page and the desk: each sees what the others did."""

from datetime import date, time

import pytest
from django.urls import reverse

from bookings.walkups import links as line_links
from bookings.walkups.services import line
from tests import builders
from tests.browser.conftest import signed_in

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def stall(site):
    """A stall that is open at the hour at which the site's clock begins (09:00 on 20 November)."""
    builders.a_size("quarter")
    day = builders.a_day(on=date(2026, 11, 20), opens=time(8, 30), bench=builders.a_bench(sitters_at_once=1))
    return line.open_or_close(day_id=day.pk, keeps=True)


@pytest.fixture
def desk(open_window, stall, site, operator):
    window = open_window(cookies=signed_in(site, operator)).page
    window.goto(reverse("studio:line", args=[stall.pk]))
    return window


def joined(window, stall, name):
    """The page of somebody who has joined by the code on the stall."""
    window.goto(reverse("line_join", args=[line_links.line_token(stall)]))
    window.get_by_label("Name to call").fill(name)
    window.get_by_label("quarter").check()
    window.get_by_label("I may be called").check()
    window.get_by_role("button", name="Take a number").click()
    return window


def words(window):
    return " ".join(window.locator("main").inner_text().split())


@pytest.mark.parametrize("scripts", [True, False])
def test_a_day_at_the_stall(open_window, stall, desk, scripts):
    """From joining to the call; a page with scripts looks again by itself, one without is read anew."""
    first, second = (
        joined(open_window(width=360, scripts=scripts).page, stall, name) for name in ("Ines", "Otto")
    )
    large = open_window(scripts=scripts).page
    large.goto(reverse("line_large", args=[line_links.line_token(stall)]))
    assert "1 waits before you" in words(second)

    desk.reload()
    desk.get_by_role("button", name="Call number 1").click()
    for window in (first, second, large):
        window.evaluate("lookAgain()") if scripts else window.reload()

    assert "Come to the tent now." in words(first)
    assert "You are next" in words(second)
    assert "Come to the tent now 1 Ines Next 2 Otto" in words(large)


def test_who_leaves_by_phone_is_gone_from_the_desk(open_window, stall, desk):
    phone = joined(open_window(width=360).page, stall, "Ines")

    phone.get_by_role("button", name="Leave the line").click()
    desk.reload()

    assert "You have left the line." in words(phone)
    assert "Nobody waits." in words(desk)


def test_the_desk_makes_an_order_of_who_has_come(open_window, stall, desk):
    phone = joined(open_window(width=360).page, stall, "Ines")
    desk.reload()
    desk.get_by_role("button", name="Call number 1").click()
    desk.get_by_role("link", name="Has come").click()
    desk.get_by_label("Email").fill("ines@example.org")
    desk.get_by_label("The sitter has read").check()
    desk.get_by_role("button", name="Make it an order").click()
    phone.reload()
    phone.get_by_role("link", name="Follow your plate").click()

    assert words(desk).startswith("Order ")
    assert "Your plate" in words(phone)
