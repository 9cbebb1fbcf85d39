"""Addresses of access, for visitors and clients with a link."""

from django.urls import URLPattern, path

from bookings.access import views

public_urls: list[URLPattern] = [
    path("sitting/<str:token>/ask/", views.ask, name="sitting_ask"),
    path("open/<str:token>/", views.open_link, name="step_up"),
]
