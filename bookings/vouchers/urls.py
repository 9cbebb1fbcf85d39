"""Addresses of vouchers: `public_urls` for visitors and clients with a link, `studio_urls` below studio/."""

from django.urls import URLPattern, path

from bookings.vouchers.views import client, studio

public_urls: list[URLPattern] = [
    path("voucher/", client.give, name="give_voucher"),
    path("voucher/<str:token>/", client.given, name="voucher"),
    path("voucher/<str:token>/voucher.pdf", client.paper, name="voucher_paper"),
    path("voucher/<str:token>/practice-card/", client.practice_card, name="voucher_practice_card"),
]
studio_urls: list[URLPattern] = [
    path("orders/<slug:reference>/voucher/", studio.redeem, name="redeem"),
    path("orders/<slug:reference>/voucher-back/", studio.refund, name="give_back"),
    path("vouchers/", studio.vouchers, name="vouchers"),
    path("vouchers/sell/", studio.sell, name="sell_voucher"),
    path("vouchers/<int:voucher_id>/", studio.voucher, name="voucher"),
    path("vouchers/<int:voucher_id>/voucher.pdf", studio.paper, name="voucher_paper"),
    path("vouchers/<int:voucher_id>/again/", studio.send_again, name="voucher_again"),
    path("vouchers/<int:voucher_id>/take-back/", studio.withdraw, name="withdraw_voucher"),
]
