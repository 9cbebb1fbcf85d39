"""Addresses of schedule, below studio/."""

from django.urls import URLPattern, path

from plates.schedule import views

studio_urls: list[URLPattern] = [
    path("bench/<int:bench_id>/minutes/", views.timings, name="timings"),
]
