"""The words of the letters as they stand, shown on an invented order."""

from dataclasses import dataclass, replace
from datetime import datetime

from bookings.letters import example as letter_example
from bookings.letters import mail
from bookings.letters import rendering as letter_forms
from bookings.letters.models import Wording
from bookings.letters.placeholders import LETTERS
from bookings.outbox.models import NoticeKind
from bookings.studio.selectors import the_studio


@dataclass(frozen=True, slots=True)
class Row:
    """A kind of letter: its subject on the invented order, and since when it is in the studio's own words, if it is."""

    kind: NoticeKind
    subject: str
    own: Wording | None


def listed(*, now: datetime) -> list[Row]:
    """Every kind of letter that can be put into other words, in the order in which a client meets them."""
    own = {wording.kind: wording for wording in Wording.objects.all()}
    return [Row(kind, preview(kind, own.get(kind), now=now).subject, own.get(kind)) for kind in LETTERS]


def preview(kind: NoticeKind, own: Wording | None, *, now: datetime) -> letter_forms.Rendered:
    """The letter of that kind about an invented order; `own` may be words that are not kept."""
    studio = the_studio()
    written = letter_forms.rendered(kind, letter_example.context(kind, studio, now=now), own)
    return replace(written, subject=mail.one_line(written.subject), text=mail.wrapped(written.text))
