"""The printing press: a template in, a tagged PDF out. Nothing is ever fetched from outside.

WeasyPrint takes half a second to load, so it is loaded only where something is printed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.template.loader import render_to_string

from bookings import archive
from plates.papers import ONE_AT_A_TIME

if TYPE_CHECKING:
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

# Where Letter lies in the printer; everywhere else it is taken to be A4 (common practice, no source).
LETTER_COUNTRIES = frozenset({"US", "CA", "MX"})


class Paper(StrEnum):
    """The sheet that a paper is printed on (ISO 216; ANSI/ASME Y14.1 A)."""

    A4 = "a4"
    LETTER = "letter"

    @classmethod
    def of(cls, country: str) -> Paper:
        """The usual sheet of a country, by its two-letter code."""
        return cls.LETTER if country.upper() in LETTER_COUNTRIES else cls.A4


@dataclass(frozen=True, slots=True)
class _Press:
    """Fonts and style, set up once: a new FontConfiguration for each paper is never given back by WeasyPrint."""

    fonts: FontConfiguration
    style: CSS
    sheets: Mapping[Paper, CSS]
    nothing_outside: URLFetcher


def pdf(template: str, words: Mapping[str, object], *, paper: Paper = Paper.A4) -> bytes:
    """Print `template` on `paper` as PDF, made as PDF/UA-1. Equal words give equal bytes.

    Raises FatalURLFetchingError when a template asks for anything from outside.
    """
    return _printed(template, words, paper, pdf_variant="pdf/ua-1")


def pdf_to_keep(
    template: str,
    words: Mapping[str, object],
    *,
    paper: Paper = Paper.A4,
    enclosed: archive.Enclosed | None = None,
) -> bytes:
    """Print as `pdf` does, made as PDF/A-3a besides, with a file enclosed if there is one."""
    return _printed(
        template,
        words,
        paper,
        finisher=lambda document, pdf: archive.finish(enclosed, pdf),
        pdf_variant=archive.VARIANT,
        attachments=[enclosed.attachment()] if enclosed else [],
    )


def _printed(template: str, words: Mapping[str, object], paper: Paper, **how: Any) -> bytes:
    from weasyprint import HTML

    page = render_to_string(template, dict(words))
    with ONE_AT_A_TIME:
        press = _press()
        document = HTML(string=page, url_fetcher=press.nothing_outside)
        printed: bytes = document.write_pdf(
            stylesheets=[press.style, press.sheets[paper]], font_config=press.fonts, **how
        )
    return printed


@cache
def _press() -> _Press:
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

    fonts = FontConfiguration()
    style = (settings.BASE_DIR / "static" / "papers.css").read_text(encoding="utf-8")
    nothing_outside = URLFetcher(allowed_protocols=(), fail_on_errors=True)
    sheets = {
        paper: CSS(string=f"@page {{ size: {paper} }}", font_config=fonts, url_fetcher=nothing_outside)
        for paper in Paper
    }
    return _Press(
        fonts=fonts,
        sheets=sheets,
        style=CSS(string=style, font_config=fonts, url_fetcher=nothing_outside),
        nothing_outside=nothing_outside,
    )
