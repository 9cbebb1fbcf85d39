"""Refusals that no view answered itself become a page with the sentence, never a traceback."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from bookings.errors import BookingsError, LinkInvalid, StudioMissing
from plates.errors import PlatesError


class RefusalMiddleware:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """Answer 410 for a dead link, 503 before the studio is set up, and 409 for everything else refused."""
        if not isinstance(exception, BookingsError | PlatesError):
            return None
        status = 409
        if isinstance(exception, LinkInvalid):
            status = 410
        elif isinstance(exception, StudioMissing):
            status = 503
        return render(request, "bookings/refused.html", {"sentence": str(exception)}, status=status)
