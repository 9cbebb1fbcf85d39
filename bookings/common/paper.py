"""Papers for the client and the books: each on the sheet of its country, and some of them to be kept."""

from collections.abc import Mapping
from enum import StrEnum

from bookings.common import archive
from plates.common.printing import printed

STYLE = "papers.css"
# Where Letter lies in the printer; everywhere else it is taken to be A4 (common practice, no source).
LETTER_COUNTRIES = frozenset({"US", "CA", "MX"})


class Paper(StrEnum):
    """The sheet that a paper is printed on (ISO 216; ANSI/ASME Y14.1 A)."""

    A4 = "a4"
    LETTER = "letter"

    @classmethod
    def of(cls, country: str) -> "Paper":
        """The usual sheet of a country, by its two-letter code."""
        return cls.LETTER if country.upper() in LETTER_COUNTRIES else cls.A4


def pdf(template: str, words: Mapping[str, object], *, paper: Paper = Paper.A4) -> bytes:
    """Print `template` on `paper` as PDF, made as PDF/UA-1. Equal words give equal bytes."""
    return printed(template, words, style=STYLE, size=paper)


def pdf_to_keep(
    template: str,
    words: Mapping[str, object],
    *,
    paper: Paper = Paper.A4,
    enclosed: archive.Enclosed | None = None,
) -> bytes:
    """Print as `pdf` does, made as PDF/A-3a besides, with a file enclosed if there is one."""
    return printed(
        template,
        words,
        style=STYLE,
        size=paper,
        variant=archive.VARIANT,
        finisher=lambda document, pdf: archive.finish(enclosed, pdf),
        attachments=[enclosed.attachment()] if enclosed else [],
    )
