"""Stopping reminders: by one click of mail software (RFC 8058), or by the button of a page."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods

from bookings.letters import unsubscribe as stop_links
from bookings.letters.services import reminders


# Mail software has no cookie of this site. The address itself is signed, and no more can be done with it than this.
@csrf_exempt
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def stop(request: HttpRequest, token: str) -> HttpResponse:
    """Ask, by GET; stop, or with `again` send them again, by POST. Never led on elsewhere: RFC 8058 forbids that."""
    stop_links.read(token)
    done = ""
    if request.method == "POST":
        done = "again" if "again" in request.POST else "stopped"
        if done == "again":
            reminders.allow(token=token)
        else:
            reminders.stop(token=token, now=timezone.now())
    return render(request, "bookings/letters/reminders.html", {"done": done})
