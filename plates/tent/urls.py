"""Addresses of tent, below studio/."""

from django.urls import URLPattern, path

from plates.tent import views

studio_urls: list[URLPattern] = [
    path("tent/worker.js", views.worker, name="tent_worker"),
    path("tent/light/", views.light, name="tent_light"),
    path("tent/<int:bench_day_id>/", views.tent, name="tent"),
    path("tent/<int:bench_day_id>/state/", views.state, name="tent_state"),
    path("tent/<int:bench_day_id>/press/", views.press, name="tent_press"),
]
