"""Addresses of checkout, for visitors and clients with a link."""

from django.urls import URLPattern, path

from bookings.checkout.views import choosing, details

public_urls: list[URLPattern] = [
    path("", choosing.home, name="home"),
    path("sit/", choosing.choose, name="choose"),
    path("sit/times/", choosing.times, name="times"),
    path("sit/hold/", choosing.hold, name="hold"),
    path("sit/<str:token>/details/", details.details, name="details"),
    path("sit/<str:token>/deposit/", details.deposit, name="deposit"),
    path("sit/<str:token>/voucher/", details.pay_by_voucher, name="use_voucher"),
    path("sit/<str:token>/practice-card/", details.practice_card, name="practice_card"),
]
