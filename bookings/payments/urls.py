"""Addresses of payments, below studio/."""

from django.urls import URLPattern, path

from bookings.payments import views

studio_urls: list[URLPattern] = [
    path("cash/", views.cash, name="cash"),
]
