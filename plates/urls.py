from django.urls import path

from plates.views import ledger, timings

app_name = "plates"
urlpatterns = [
    path("plate/<int:number>/", ledger.plate, name="plate"),
    path("bench/<int:bench_id>/", ledger.bench, name="bench"),
    path("bench/<int:bench_id>/minutes/", timings.timings, name="timings"),
]
