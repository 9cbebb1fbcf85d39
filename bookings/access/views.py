"""Asking for a mailed link, and opening it: by a button, because mail software fetches addresses by itself."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from bookings.access import services as step_up
from bookings.access.guard import grant
from bookings.access.models import Purpose
from bookings.errors import TooManyLinks
from bookings.orders import links


@require_POST
def ask(request: HttpRequest, token: str) -> HttpResponse:
    order = links.resolve_sitting(token)
    purpose = request.POST.get("purpose", "")
    if purpose in Purpose:
        try:
            step_up.ask(order_id=order.pk, purpose=Purpose(purpose), now=timezone.now())
            messages.success(
                request, _("A letter is on its way to the address you gave. It opens for ten minutes.")
            )
        except TooManyLinks as refusal:
            messages.error(request, str(refusal))
    return redirect("sitting", token)


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def open_link(request: HttpRequest, token: str) -> HttpResponse:
    now = timezone.now()
    if request.method == "POST":
        grant(request, used := step_up.use(text=token, now=now), now=now)
        return redirect(f"mine_{used.purpose}")
    asked = step_up.resolve(text=token, now=now)
    return render(request, "bookings/access/open.html", {"purpose": Purpose(asked.purpose)})
