"""Addresses of ledger, below studio/."""

from django.urls import URLPattern, path

from plates.ledger.views import ledger, plate

studio_urls: list[URLPattern] = [
    path("plates/", ledger.plates, name="plates"),
    path("plates/plates.csv", ledger.export, name="export"),
    path("plate/<int:number>/", plate.plate, name="plate"),
    path("plate/<int:number>/picture/", plate.save_picture, name="keep_picture"),
    path("plate/<int:number>/picture.jpg", plate.picture, name="picture"),
    path("bench/<int:bench_id>/", ledger.bench, name="bench"),
]
