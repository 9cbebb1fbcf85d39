"""The printing press of both apps: a template in, a tagged PDF out. Nothing is ever fetched from outside.

WeasyPrint takes half a second to load, so it is loaded only where something is printed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from threading import Lock
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.template.loader import render_to_string

if TYPE_CHECKING:
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

# The fonts are shared by all papers of the process, and nothing says that two threads may set type with them at once.
_ONE_AT_A_TIME = Lock()


@dataclass(frozen=True, slots=True)
class _Press:
    """What is set up once: a new FontConfiguration for each paper is never given back by WeasyPrint."""

    fonts: FontConfiguration
    nothing_outside: URLFetcher


def printed(
    template: str,
    words: Mapping[str, object],
    *,
    style: str,
    size: str = "",
    variant: str = "pdf/ua-1",
    **how: Any,
) -> bytes:
    """Print `template` with a style sheet of `static/`. Equal words give equal bytes.

    `size`: that of the page in the words of CSS, where the style does not say it; `variant` and `how` are
    WeasyPrint's own. Raises FatalURLFetchingError when a template asks for anything from outside.
    """
    from weasyprint import HTML

    page = render_to_string(template, dict(words))
    with _ONE_AT_A_TIME:
        press = _press()
        document = HTML(string=page, url_fetcher=press.nothing_outside)
        pdf: bytes = document.write_pdf(
            stylesheets=[_sheet(style, size)], font_config=press.fonts, pdf_variant=variant, **how
        )
    return pdf


@cache
def _press() -> _Press:
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher

    return _Press(FontConfiguration(), URLFetcher(allowed_protocols=(), fail_on_errors=True))


@cache
def _sheet(style: str, size: str) -> CSS:
    from weasyprint import CSS

    css = (settings.BASE_DIR / "static" / style).read_text(encoding="utf-8")
    if size:
        css += f"@page {{ size: {size} }}"
    return CSS(string=css, font_config=_press().fonts, url_fetcher=_press().nothing_outside)
