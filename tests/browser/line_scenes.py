"""The pages of the walk-up line in every state worth looking at."""

from django.urls import reverse

from bookings.walkups import links as line_links
from tests.browser.scenes import Scene, answered, at
from tests.browser.stall import a_place


def stall(house):
    return line_links.line_token(house.stall)


def place(number):
    return lambda house: line_links.place_token(a_place(house.stall, number))


def stall_id(house):
    return house.stall.pk


def nothing_filled_in(page, house):
    page.goto(reverse("line_join", args=[stall(house)]))
    return answered(page, page.get_by_role("button", name="Take a number").click)


LINE_SCENES = [
    Scene("line, join", at("line_join", stall)),
    Scene("line, join, wrong", nothing_filled_in, status=400),
    Scene("line, large page", at("line_large", stall)),
    Scene("line, come to the tent", at("line_place", place(3))),
    Scene("line, waiting", at("line_place", place(5))),
    Scene("line, desk", at("studio:line", stall_id), studio=True),
    Scene("line, sheet", at("studio:line_sheet", stall_id), studio=True),
    Scene("line, coming", at("studio:line_come", lambda house: a_place(house.stall, 3).pk), studio=True),
]
