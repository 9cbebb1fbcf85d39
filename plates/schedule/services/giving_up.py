"""The end of a sitting of which no plate came out."""

from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from plates.bench.models import BenchJob, Plate, PlateSlot, Stage
from plates.common.words import within
from plates.errors import StillUnderWay
from plates.schedule.services import jobs as bench
from plates.schedule.services import placing


@transaction.atomic
def give_up(*, job_id: int, now: datetime) -> BenchJob:
    """Pour nothing more for a begun job, and give the rooms back that were kept for its spoilt plates. Safe twice.

    What its own plan holds stays reserved: it is spent, or too little to be sold. StillUnderWay when no plate was tried
    yet, or one is not spoilt.
    """
    job, _day = bench.locked_job(job_id=job_id)
    if job.begun_at is None:
        raise StillUnderWay(_("No plate of this sitting was poured yet. It can still be moved or cancelled."))
    alive = Plate.objects.filter(slot__job=job).exclude(stage=Stage.SPOILT).order_by("number").first()
    if alive is not None:
        raise StillUnderWay(
            _(
                "Plate {number} of this sitting is {stage}. Only when every plate was given up is a sitting "
                "without one."
            ).format(number=alive.number, stage=within(alive.get_stage_display()))
        )
    PlateSlot.objects.filter(job=job, given_up_at=None).update(given_up_at=now)
    BenchJob.objects.filter(retake_of__slot__job=job, begun_at__isnull=True).delete()
    placing.changed(day=job.day)
    return job
