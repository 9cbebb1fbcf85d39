"""Addresses of planner: `public_urls` for visitors and clients with a link, `studio_urls` below studio/."""

from django.urls import URLPattern, path

from bookings.planner.views import days, feed

public_urls: list[URLPattern] = [
    path("calendar/<str:secret>.ics", feed.calendar, name="calendar_feed"),
]
studio_urls: list[URLPattern] = [
    path("telephone/", feed.telephone, name="telephone"),
    path("telephone/stop/", feed.stop, name="telephone_stop"),
    path("planner/", days.planner, name="planner"),
    path("planner/<int:day_id>/", days.plan_day, name="plan_day"),
    path("planner/<int:day_id>/what-if/", days.what_if, name="what_if"),
    path("planner/<int:day_id>/chances/", days.chances, name="chances"),
]
