"""Responses that are files, and pages that lead to the card service."""

from collections.abc import Callable
from functools import wraps
from typing import Any, ParamSpec, cast

from csp.decorators import csp_update
from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils.http import content_disposition_header

from bookings.common.forms import LONGEST_WORDS

Arguments = ParamSpec("Arguments")


def pdf(content: bytes, name: str) -> HttpResponse:
    disposition = content_disposition_header(False, name)
    headers = {"Content-Disposition": disposition or "inline", "Cache-Control": "no-store"}
    return HttpResponse(content, content_type="application/pdf", headers=headers)


def search_words(request: HttpRequest) -> str:
    """What a search box sent, as far as it is looked for."""
    return request.GET.get("q", "").replace("\0", "")[:LONGEST_WORDS].strip()


def cards_are_on() -> bool:
    """Whether this studio takes cards online."""
    return bool(settings.CARD_KEY)


def leads_to_card_page(view: Callable[Arguments, HttpResponse]) -> Callable[Arguments, HttpResponse]:
    """Let the forms of this page lead to the card service: Chromium checks form-action for a redirect too."""

    @wraps(view)
    def shown(*args: Arguments.args, **kwargs: Arguments.kwargs) -> HttpResponse:
        if not cards_are_on():
            return view(*args, **kwargs)
        allowed: Any = csp_update({"form-action": [settings.CARD_PAGES]})
        return cast(HttpResponse, allowed(view)(*args, **kwargs))

    return shown
