"""Addresses of waitlist: `public_urls` for visitors and clients with a link, `studio_urls` below studio/."""

from django.urls import URLPattern, path

from bookings.waitlist import views

public_urls: list[URLPattern] = [
    path("sit/wait/", views.wait, name="wait"),
    path("waiting/<str:token>/", views.place, name="waiting"),
    path("waiting/<str:token>/leave/", views.leave, name="waiting_leave"),
]
studio_urls: list[URLPattern] = [
    path("day/<int:day_id>/waiting/", views.waiting_list, name="waiting_list"),
    path("waiting/<int:waiting_id>/strike/", views.strike, name="waiting_strike"),
]
