"""The calendar for the photographer's telephone: its page in the studio, and the feed behind a secret address."""

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.planner import services as feed
from bookings.planner.forms.feed import FeedForm
from bookings.planner.ical import calendar_feed
from bookings.planner.models import CalendarFeed
from bookings.planner.selectors import feed as selector
from bookings.studio.selectors import the_studio
from plates.common.access import operator_of, photographer


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def telephone(request: HttpRequest) -> HttpResponse:
    """Make a new address. It is shown in the answer and never again, for it is not kept."""
    sent = request.POST if request.method == "POST" else None
    owner, form, address = operator_of(request), FeedForm(sent), ""
    if form.is_valid():
        secret = feed.make_address(
            owner=owner, with_names=form.cleaned_data["with_names"], now=timezone.now()
        )
        address = settings.SITE_ADDRESS + reverse("calendar_feed", args=[secret])
    context = {
        "form": form,
        "address": address,
        "feed": CalendarFeed.objects.filter(owner=owner).first(),
        "weeks": (selector.BEFORE.days // 7, selector.AHEAD.days // 7),
    }
    return render(request, "bookings/planner/telephone.html", context)


@photographer
@require_POST
def stop(request: HttpRequest) -> HttpResponse:
    feed.stop(owner=operator_of(request))
    return redirect("studio:telephone")


@never_cache
@require_safe
def calendar(request: HttpRequest, secret: str) -> HttpResponse:
    """The feed; the same answer for every secret that opens nothing, and no browser or proxy keeps a copy."""
    found = selector.feed_of(secret)
    if found is None:
        raise Http404
    now = timezone.now()
    content = calendar_feed(selector.sittings(now=now), the_studio(), with_names=found.with_names, now=now)
    headers = {"X-Robots-Tag": "noindex", "Content-Disposition": 'inline; filename="sittings.ics"'}
    return HttpResponse(content, content_type="text/calendar; charset=utf-8", headers=headers)
