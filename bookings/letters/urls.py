"""Addresses of letters: `public_urls` for visitors and clients with a link, `studio_urls` below studio/."""

from django.urls import URLPattern, path

from bookings.letters import views

public_urls: list[URLPattern] = [
    path("reminders/<str:token>/", views.stop, name="stop_reminders"),
]
studio_urls: list[URLPattern] = [
    path("orders/<slug:reference>/letters/", views.send_again, name="letters_again"),
    path("letters/", views.letters, name="wordings"),
    path("letters/<slug:kind>/", views.letter, name="wording"),
]
