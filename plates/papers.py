"""Labels of the store room as PDF, tagged for screen readers. Nothing is ever fetched from outside.

WeasyPrint takes half a second to load, so it is loaded only where something is printed.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from threading import Lock
from typing import TYPE_CHECKING

from django.conf import settings
from django.template.loader import render_to_string

from plates.bottle_label import BottleLabel

if TYPE_CHECKING:
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

# The fonts are shared by all papers of the process, and nothing says that two threads may set type with them at once.
ONE_AT_A_TIME = Lock()


def label_pdf(label: BottleLabel) -> bytes:
    """One label of 148 mm by 105 mm (A6, ISO 216). Equal labels give equal bytes."""
    return _pdf("plates/bottle_label.html", {"label": label})


def _pdf(template: str, words: Mapping[str, object]) -> bytes:
    from weasyprint import HTML

    page = render_to_string(template, dict(words))
    with ONE_AT_A_TIME:
        fonts, style, nothing_outside = _set_up()
        document = HTML(string=page, url_fetcher=nothing_outside)
        printed: bytes = document.write_pdf(stylesheets=[style], font_config=fonts, pdf_variant="pdf/ua-1")
    return printed


@cache
def _set_up() -> tuple[FontConfiguration, CSS, URLFetcher]:
    """Fonts and style, set up once: a new FontConfiguration for each paper is never given back by WeasyPrint."""
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

    fonts = FontConfiguration()
    nothing_outside = URLFetcher(allowed_protocols=(), fail_on_errors=True)
    style = (settings.BASE_DIR / "static" / "store-papers.css").read_text(encoding="utf-8")
    return fonts, CSS(string=style, font_config=fonts, url_fetcher=nothing_outside), nothing_outside
