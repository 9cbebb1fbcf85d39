from django.urls import path

from plates.views import ledger

app_name = "plates"
urlpatterns = [
    path("plate/<int:number>/", ledger.plate, name="plate"),
    path("bench/<int:bench_id>/", ledger.bench, name="bench"),
]
