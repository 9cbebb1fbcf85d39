from django.urls import include, path

from plates.ledger.views import ledger
from plates.ledger.views import plate as plates
from plates.schedule import views as timings
from plates.tent import views as tent

app_name = "plates"
urlpatterns = [
    path("plates/", ledger.plates, name="plates"),
    path("plates/plates.csv", ledger.export, name="export"),
    path("plate/<int:number>/", plates.plate, name="plate"),
    path("plate/<int:number>/picture/", plates.keep_picture, name="keep_picture"),
    path("plate/<int:number>/picture.jpg", plates.picture, name="picture"),
    path("bench/<int:bench_id>/", ledger.bench, name="bench"),
    path("bench/<int:bench_id>/minutes/", timings.timings, name="timings"),
    path("tent/worker.js", tent.worker, name="tent_worker"),
    path("tent/light/", tent.light, name="tent_light"),
    path("tent/<int:bench_day_id>/", tent.tent, name="tent"),
    path("tent/<int:bench_day_id>/state/", tent.state, name="tent_state"),
    path("tent/<int:bench_day_id>/press/", tent.press, name="tent_press"),
    path("store/", include("plates.store.urls")),
]
