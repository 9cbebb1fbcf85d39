"""Every page of the site in every state worth looking at, and how a browser comes there."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from uuid import uuid4

from django.template.loader import render_to_string
from django.urls import reverse

from bookings.orders import links
from plates.bench.models import PlateSize
from tests.browser import walks


@dataclass(frozen=True)
class Scene:
    """A page in one state; `reach` leads a page there. `studio` pages are seen by the photographer."""

    name: str
    reach: Callable
    status: int = 200
    studio: bool = False

    def __str__(self):
        return self.name


def at(pattern, *facts):
    """Go to the address of a view; each fact is read from the house."""
    return lambda page, house: page.goto(reverse(pattern, args=[fact(house) for fact in facts]))


def quarter():
    return f"{reverse('times')}?size_{PlateSize.objects.get(name='quarter').pk}=1"


def checkout(name):
    return lambda house: links.checkout_token(getattr(house, name))


def sitting(name):
    return lambda house: links.sitting_token(getattr(house, name))


def day(name):
    return lambda house: getattr(house, name).pk


def order(name):
    return lambda house: getattr(house, name).reference


def invoice(house):
    return house.paid.invoices.get(kind="380").pk


def answered(page, act):
    """What the page answers to an act, as `goto` tells it."""
    with page.expect_navigation() as answer:
        act()
    return answer.value


def wrong_details(page, house):
    page.goto(reverse("details", args=[links.checkout_token(house.held)]))
    return answered(page, lambda: walks.send_details(page))


def group_with_a_code(page, house):
    """A later day costs more; what makes its price up is opened."""
    answer = page.goto(quarter() + "&sitters=12&code=harbour+10")
    for summary in page.locator("section summary").all():
        summary.click()
    return answer


def sent(form_page, button, *facts):
    """Send the form of a page as it stands there, with nothing filled in."""

    def reach(page, house):
        page.goto(reverse(form_page, args=[fact(house) for fact in facts]))
        return answered(page, page.get_by_role("button", name=re.compile(button)).click)

    return reach


def wrong_password(times):
    def reach(page, house):
        page.goto(reverse("login"))
        name = f"guess-{times}-{uuid4()}"
        for _ in range(times):
            page.get_by_label("Username").fill(name)
            page.get_by_label("Password").fill("wrong")
            answer = answered(page, page.get_by_role("button", name="Sign in").click)
        return answer

    return reach


def refused_press(page, house):
    """Hand over while money is owed: the sentence stands above the queue."""
    page.goto(reverse("studio:day", args=[house.busy.pk]))
    return answered(page, page.get_by_role("button", name=re.compile("^Hand over")).click)


def broken(page, house):
    """The page of a server that broke, as it is kept for that; nothing here breaks on purpose."""
    words = render_to_string("500.html")
    page.route("**/broken/", lambda route: route.fulfill(status=200, body=words, content_type="text/html"))
    return page.goto("/broken/")


SCENES = [
    Scene("first page", at("home")),
    Scene("choose", at("choose")),
    Scene("times, a group with a code", group_with_a_code),
    Scene("times, one day full", lambda page, house: page.goto(quarter())),
    Scene("details", at("details", checkout("held"))),
    Scene("details, wrong", wrong_details, status=400),
    Scene("deposit", at("deposit", checkout("placed"))),
    Scene("sitting, promised", at("sitting", sitting("paid"))),
    Scene("sitting, cancelled", at("sitting", sitting("cancelled"))),
    Scene("refused link", lambda page, house: page.goto(reverse("sitting", args=["x"])), status=410),
    Scene("nothing here", lambda page, house: page.goto("/nothing/"), status=404),
    Scene("broken", broken),
    Scene("sign in", at("login")),
    Scene("sign in, locked", wrong_password(5), status=429),
    Scene("queue", at("studio:day", day("busy")), studio=True),
    Scene("queue, refused", refused_press, studio=True),
    Scene("new times", at("studio:late", day("busy")), studio=True),
    Scene("spoil", at("studio:spoil", lambda house: house.plate.pk), studio=True),
    Scene("planner", at("studio:planner"), studio=True),
    Scene("day, busy", at("studio:plan_day", day("busy")), studio=True),
    Scene("what if, busy", at("studio:what_if", day("busy")), studio=True),
    Scene("chances, busy", at("studio:chances", day("busy")), studio=True),
    Scene("finishing", at("studio:finishing"), studio=True),
    Scene("closed days", at("studio:closed_days"), studio=True),
    Scene("desk", lambda page, house: page.goto(f"{reverse('studio:handovers')}?code=NOBODY"), 404, True),
    Scene("hand over", at("studio:hand_over", order("paid")), studio=True),
    Scene("post", at("studio:post", order("posted")), studio=True),
    Scene("parcel", at("studio:parcel", lambda house: house.parcel.pk), studio=True),
    Scene("orders", at("studio:orders"), studio=True),
    Scene("order", at("studio:order", order("paid")), studio=True),
    Scene(
        "order, wrong",
        sent("studio:order", "^Enter it in the ledger", order("paid")),
        status=400,
        studio=True,
    ),
    Scene("take an invoice back", at("studio:take_back_invoice", invoice), studio=True),
    Scene("made out to", at("studio:made_out_to", order("paid")), studio=True),
    Scene("another time", at("studio:move", order("placed")), studio=True),
    Scene("another sitting", at("studio:rebook", order("plateless")), studio=True),
    Scene("cash box", at("studio:cash"), studio=True),
    Scene("cancel", at("studio:cancel", order("placed")), studio=True),
    Scene("books", at("studio:books"), studio=True),
    Scene("orders to be invoiced", at("studio:to_invoice"), studio=True),
    Scene("invoices together, under way", at("studio:invoice_run", lambda house: house.run.pk), studio=True),
    Scene("open invoices", at("studio:open_invoices"), studio=True),
    Scene("numbers of the year", at("studio:numbers"), studio=True),
    Scene("statements", at("studio:statements"), studio=True),
    Scene("statement", at("studio:statement", lambda house: house.paid.client_id), studio=True),
    Scene("plates", at("plates:plates"), studio=True),
    Scene("plate", at("plates:plate", lambda house: house.plate.number), studio=True),
    Scene("bench", at("plates:bench", lambda house: house.busy.bench_day.bench_id), studio=True),
    Scene("tent", at("plates:tent", lambda house: house.busy.bench_day_id), studio=True),
    Scene("tent, coin test", at("plates:tent_light"), studio=True),
    Scene("safety", at("plates:safety"), studio=True),
    Scene("waste", at("plates:waste"), studio=True),
    Scene("learned minutes", at("plates:timings", lambda house: house.learned.pk), studio=True),
]
