"""The studio's own words for its letters."""

from datetime import datetime

from django.db import transaction

from bookings.letters.models import Wording
from bookings.outbox.models import NoticeKind


@transaction.atomic
def save_wording(*, kind: NoticeKind, subject: str, text: str, now: datetime) -> None:
    """Say a kind of letter in these words from now on; both empty is back to ours. Letters already sent stay."""
    if not subject and not text:
        back_to_ours(kind=kind)
        return
    Wording.objects.update_or_create(
        kind=kind, defaults={"subject": subject, "text": text, "changed_at": now}
    )


def back_to_ours(*, kind: NoticeKind) -> None:
    """Say a kind of letter in our words again. Safe twice."""
    Wording.objects.filter(kind=kind).delete()
