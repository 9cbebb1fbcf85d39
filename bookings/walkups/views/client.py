"""The walk-up line as people see it: the form behind the code, the large page at the stall, one's own place."""

from uuid import UUID

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bookings.common.codes import qr_svg
from bookings.diary.models import SittingDay
from bookings.errors import BookingsError, LineRefused
from bookings.orders import links
from bookings.walkups import links as line_links
from bookings.walkups import selectors as selector
from bookings.walkups.forms import JoinForm
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from plates.errors import BenchFull

SESSION = "line_places"
# A family with one phone; nobody else stands in a line several times.
MOST_OF_ONE = 3


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def join(request: HttpRequest, token: str) -> HttpResponse:
    """Behind the code at the stall: a name, a plate, and the number to wait by."""
    day = line_links.resolve_line(token)
    form = JoinForm(request.POST or None, prices=selector.sizes(day=day))
    if request.method != "POST":
        return _join_page(request, day, form)
    if not form.is_valid():
        return _join_page(request, day, form, status=400)
    try:
        _refuse_many(request, form.cleaned_data["key"])
        place = joined(day, form, at_desk=False)
    except BenchFull as full:
        return _join_page(request, day, form, full=full, status=409)
    except BookingsError as refused:
        return _join_page(request, day, form, refusal=str(refused), status=409)
    request.session[SESSION] = [*_own(request), place.pk]
    return redirect("line_place", line_links.place_token(place))


@never_cache
@require_safe
def large(request: HttpRequest, token: str) -> HttpResponse:
    """For a screen at the stall: who is called, who comes next and when, and the code to join by."""
    day = line_links.resolve_line(token)
    return render(request, "bookings/walkups/large.html", stall(day))


@never_cache
@require_safe
def place(request: HttpRequest, token: str) -> HttpResponse:
    """One's own place: how many wait ahead, between which times it will be one's turn, and the call."""
    own = line_links.resolve_place(token)
    now = timezone.now()
    context = {
        "place": own,
        "day": own.day,
        "now": own.day.local(now),
        "waits": selector.in_line(place=own, now=now),
        "token": token,
        "line_token": line_links.line_token(own.day),
        "sitting_token": links.sitting_token(own.order) if own.order else None,
    }
    return render(request, "bookings/walkups/place.html", context)


@require_POST
def leave(request: HttpRequest, token: str) -> HttpResponse:
    line.leave(place_id=line_links.resolve_place(token).pk, now=timezone.now())
    return redirect("line_place", token)


def joined(day: SittingDay, form: JoinForm, *, at_desk: bool) -> LinePlace:
    """The place that a valid form asks for."""
    cleaned = form.cleaned_data
    return line.join(
        day_id=day.pk,
        key=cleaned["key"],
        name=cleaned["name"],
        size=cleaned["size"],
        at_desk=at_desk,
        now=timezone.now(),
    )


def stall(day: SittingDay) -> dict[str, object]:
    """What hangs at the stall: the line, and the address to join it by as a code."""
    now, token = timezone.now(), line_links.line_token(day)
    address = settings.SITE_ADDRESS + reverse("line_join", args=[token])
    return {
        "day": day,
        "line": selector.the_line(day=day, now=now),
        "now": day.local(now),
        "line_token": token,
        "address": address,
        "code": qr_svg(address),
        "prices": selector.sizes(day=day),
    }


def _own(request: HttpRequest) -> list[int]:
    found: list[int] = request.session.get(SESSION, [])
    return found


def _refuse_many(request: HttpRequest, key: UUID) -> None:
    """LineRefused for who stands in line too often already; a form that is sent again is no other place."""
    standing = selector.live_places(ids=_own(request))
    if len(standing) >= MOST_OF_ONE and key not in {each.key for each in standing}:
        raise LineRefused(
            _("You stand in line {most_of_one} times already. Ask at the desk for more.").format(
                most_of_one=MOST_OF_ONE
            )
        )


def _join_page(
    request: HttpRequest,
    day: SittingDay,
    form: JoinForm,
    *,
    full: BenchFull | None = None,
    refusal: str | None = None,
    status: int = 200,
) -> HttpResponse:
    now = timezone.now()
    is_open = selector.is_open(day=day, now=now)
    context = {
        "day": day,
        "form": form,
        "line": selector.the_line(day=day, now=now),
        "is_open": is_open,
        "full": full,
        "refusal": refusal,
        "next_days": selector.next_days(day=day, now=now) if full or not is_open else [],
        "own": [(each, line_links.place_token(each)) for each in selector.live_places(ids=_own(request))],
    }
    return render(request, "bookings/walkups/join.html", context, status=status)
