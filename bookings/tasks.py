"""What the worker does. Tasks carry no facts: each one looks at the rows and does what is due, safe to run twice."""

from celery import shared_task
from django.utils import timezone

from bookings.drain import drain


@shared_task
def drain_due_work() -> int:
    """Do everything that is due now; return how many letters went out."""
    return drain(now=timezone.now())
