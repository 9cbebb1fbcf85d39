"""The bell: wakes the worker, if there is a broker. Without one, or with a deaf one, the sweep finds the rows."""

import logging

from celery import current_app
from django.conf import settings
from kombu.exceptions import OperationalError

DRAIN = "bookings.tasks.drain_due_work"
logger = logging.getLogger(__name__)


def ring() -> None:
    """Wake the worker. By the name of its task: the work stands above everything that rings."""
    if not settings.REDIS_URL:
        return
    try:
        current_app.send_task(DRAIN)
    except OperationalError:
        logger.warning("the broker did not answer; the sweep will find the work")
