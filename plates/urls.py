from django.urls import path

from plates.views import ledger, plates, timings

app_name = "plates"
urlpatterns = [
    path("plate/<int:number>/", plates.plate, name="plate"),
    path("plate/<int:number>/picture/", plates.keep_picture, name="keep_picture"),
    path("plate/<int:number>/picture.jpg", plates.picture, name="picture"),
    path("bench/<int:bench_id>/", ledger.bench, name="bench"),
    path("bench/<int:bench_id>/minutes/", timings.timings, name="timings"),
]
