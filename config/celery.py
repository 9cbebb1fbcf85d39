"""The worker. A broker only rings the bell: the rows of due work in the database are the truth."""

import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")

app = Celery("silver_hour")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
