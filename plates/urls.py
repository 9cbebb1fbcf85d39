"""Every address of the bench, the store room and the dark tent: each room lists its own, all below studio/."""

from django.urls import include, path

from plates.ledger import urls as ledger
from plates.schedule import urls as schedule
from plates.store import urls as store
from plates.tent import urls as tent

app_name = "plates"
urlpatterns = [
    *ledger.studio_urls,
    *schedule.studio_urls,
    *tent.studio_urls,
    path("store/", include(store.studio_urls)),
]
