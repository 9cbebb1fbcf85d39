"""What holds for every page: refusals become a sentence, never a traceback, and set-up takes few methods."""

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseNotAllowed
from django.shortcuts import render

from bookings.errors import BookingsError
from bookings.studio.language import locale_of, speaking
from bookings.studio.models import Studio
from plates.errors import PlatesError


class LanguageMiddleware:
    """Every page is in the studio's language, whatever the browser asks for: so are terms, letters and papers."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        studio = Studio.objects.first()
        request.studio = studio  # type: ignore[attr-defined]  # the page shows it: it is asked for once
        with speaking(locale_of(studio)):
            return self.get_response(request)


class RefusalMiddleware:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """Answer a refusal that no view caught with its sentence and its status."""
        if not isinstance(exception, BookingsError | PlatesError):
            return None
        context = {"sentence": str(exception)}
        return render(request, "bookings/common/refused.html", context, status=exception.status)


class SetUpMethodsMiddleware:
    """Django's own set-up pages would answer any method, TRACE among them; the studio's pages say theirs themselves."""

    METHODS = ("GET", "HEAD", "POST")

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(self, request: HttpRequest, view: object, args: Any, kwargs: Any) -> HttpResponse | None:
        """Answer 405 to what a set-up page has no use for, before it is asked who sends it."""
        found = request.resolver_match
        if found is None or found.app_name != "admin" or request.method in self.METHODS:
            return None
        return HttpResponseNotAllowed(self.METHODS)
