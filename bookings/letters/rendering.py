"""The subject and the two forms of a letter, in our words or in the studio's own."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.template.loader import render_to_string

from bookings.letters import placeholders
from bookings.letters import wording as wordings
from bookings.letters.models import Wording
from bookings.outbox.models import NoticeKind

# What sitters have to be told for their safety, and so that the plate comes out, stays below any other words.
PREPARES = frozenset({NoticeKind.CONFIRMED, NoticeKind.DAY_BEFORE})
BEGINS, ENDS = '<main class="letter">', "</main>"


@dataclass(frozen=True, slots=True)
class Rendered:
    """A letter in words: `text` and `html` say the same."""

    subject: str
    text: str
    html: str
    prepares: bool = False

    @property
    def body(self) -> str:
        """What stands between head and foot of the HTML form, to be shown on a page of the studio."""
        return self.html.partition(BEGINS)[2].partition(ENDS)[0]


def rendered(kind: NoticeKind, words: Mapping[str, Any], own: Wording | None) -> Rendered:
    """The letter of that kind; what is empty in `own` is in our words. A credit note has no words but ours."""
    name, subject, said = f"bookings/letters/mail/{kind}", "", dict(words)
    if own is not None and not words.get("corrects"):
        values = placeholders.values(kind, words)
        subject = wordings.fill(own.subject, values)
        if own.text:
            text = wordings.fill(own.text, values)
            said |= {"text": text, "blocks": wordings.blocks(text, values.get("link", ""))}
            said |= {"prepares": kind in PREPARES}
            name = "bookings/letters/mail/_own"
    return Rendered(
        subject=subject or render_to_string(f"bookings/letters/mail/{kind}.subject.txt", said),
        text=render_to_string(f"{name}.txt", said),
        html=render_to_string(f"{name}.html", said),
        prepares=kind in PREPARES,
    )
