"""Addresses of walkups: `public_urls` for visitors and clients with a link, `studio_urls` below studio/."""

from django.urls import URLPattern, path

from bookings.walkups.views import client, studio

public_urls: list[URLPattern] = [
    path("line/<str:token>/", client.join, name="line_join"),
    path("line/<str:token>/large/", client.large, name="line_large"),
    path("in-line/<str:token>/", client.place, name="line_place"),
    path("in-line/<str:token>/leave/", client.leave, name="line_leave"),
]
studio_urls: list[URLPattern] = [
    path("day/<int:day_id>/line/", studio.desk, name="line"),
    path("day/<int:day_id>/line/sheet/", studio.sheet, name="line_sheet"),
    path("day/<int:day_id>/line/keep/", studio.open_or_close, name="line_keep"),
    path("line/<int:place_id>/call/", studio.call, name="line_call"),
    path("line/<int:place_id>/come/", studio.come, name="line_come"),
    path("line/<int:place_id>/did-not-come/", studio.strike, name="line_strike"),
    path("line/<int:place_id>/let-in-again/", studio.undo_strike, name="line_take_back"),
]
