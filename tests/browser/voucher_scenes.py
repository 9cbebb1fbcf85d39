"""The pages of gift vouchers in every state worth looking at."""

from django.urls import reverse

from bookings.vouchers import links as voucher_links
from tests.browser.scenes import Scene, answered, at, checkout


def of(name):
    return lambda house: voucher_links.voucher_token(getattr(house, name))


def row(name):
    return lambda house: getattr(house, name).pk


def wrong_code(page, house):
    page.goto(reverse("deposit", args=[checkout("placed")(house)]))
    page.get_by_label("Voucher code").fill("ABCD-EFGH-JKMN")
    return answered(page, page.get_by_role("button", name="Pay with this voucher").click)


VOUCHER_SCENES = [
    Scene("voucher, give", at("give_voucher")),
    Scene("voucher, to be paid", at("voucher", of("unpaid_voucher"))),
    Scene("deposit, wrong code", wrong_code, status=400),
    Scene("vouchers, desk", at("studio:vouchers"), studio=True),
    Scene("voucher, desk, used", at("studio:voucher", row("used_voucher")), studio=True),
]
