"""How the site is put together: settings, addresses, the web and worker entry points."""

from config.celery import app as celery_app

__all__ = ["celery_app"]
