"""What the worker does. Tasks carry no facts: each one looks at the rows and does what is due, safe to run twice."""

import logging

from celery import shared_task
from django.conf import settings
from django.utils import timezone
from kombu.exceptions import OperationalError

logger = logging.getLogger(__name__)


@shared_task
def drain_due_work() -> int:
    """Do everything that is due now; return how many letters went out."""
    from bookings.services.due import (
        drain,
    )  # the services queue letters and ring this bell: a circle otherwise

    return drain(now=timezone.now())


def ring() -> None:
    """Wake the worker, if there is a broker. Without one, or with a deaf one, the sweep finds the rows."""
    if not settings.REDIS_URL:
        return
    try:
        drain_due_work.delay()
    except OperationalError:
        logger.warning("the broker did not answer; the sweep will find the work")
