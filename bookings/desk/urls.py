"""Addresses of desk, below studio/."""

from django.urls import URLPattern, path

from bookings.desk import views

studio_urls: list[URLPattern] = [
    path("orders/", views.orders, name="orders"),
    path("orders/<slug:reference>/", views.order, name="order"),
    path("orders/<slug:reference>/pickup.pdf", views.pickup_notice, name="pickup_notice"),
]
