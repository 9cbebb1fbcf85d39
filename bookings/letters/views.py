"""The letters in the studio's own words: the list, and one of them with how it will look."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods, require_safe

from bookings.letters import unsubscribe as stop_links
from bookings.letters.forms import LetterAddressForm, WordingForm
from bookings.letters.models import Wording
from bookings.letters.placeholders import LETTERS, PLACEHOLDERS
from bookings.letters.selectors import wordings as selector
from bookings.letters.services import reminders, undelivered, wordings
from bookings.orders.models import Order
from bookings.outbox.models import NoticeKind
from plates.common.access import photographer


@photographer
@require_safe
def letters(request: HttpRequest) -> HttpResponse:
    return render(request, "bookings/letters/wordings.html", {"rows": selector.listed(now=timezone.now())})


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def letter(request: HttpRequest, kind: str) -> HttpResponse:
    """Show a letter on an invented order; by POST look at other words first, keep them, or go back to ours."""
    if kind not in LETTERS:
        raise Http404("There is no such letter.")
    asked = NoticeKind(kind)
    if request.method != "POST":
        kept = Wording.objects.filter(kind=asked).first()
        form = WordingForm(kind=asked, initial={"subject": kept.subject, "text": kept.text} if kept else None)
        return _page(request, asked, form, kept)
    if "ours" in request.POST:
        wordings.back_to_ours(kind=asked)
        messages.success(request, _("The letter is in our words again."))
        return redirect("studio:wording", kind)
    form = WordingForm(request.POST, kind=asked)
    if not form.is_valid():
        return _page(request, asked, form, None, status=400)
    if "look" in request.POST:
        return _page(request, asked, form, Wording(kind=asked, **form.cleaned_data))
    wordings.save_wording(kind=asked, now=timezone.now(), **form.cleaned_data)
    messages.success(request, _("From now on the letter says it like that."))
    return redirect("studio:wording", kind)


def _page(
    request: HttpRequest, kind: NoticeKind, form: WordingForm, own: Wording | None, status: int = 200
) -> HttpResponse:
    seen = selector.preview(kind, own, now=timezone.now())
    context = {
        "kind": kind,
        "form": form,
        "seen": seen,
        # Our own template made it, and wrote every word in it so that none is read as HTML.
        "seen_body": mark_safe(seen.body),
        "names": [(name, PLACEHOLDERS[name].means) for name in LETTERS[kind].known],
        "needed": LETTERS[kind].needed,
    }
    return render(request, "bookings/letters/wording.html", context, status=status)


@photographer
@require_http_methods(["GET", "HEAD", "POST"])
def send_again(request: HttpRequest, reference: str) -> HttpResponse:
    """Show what could not be delivered for an order; correct the address and send it again."""
    order = get_object_or_404(
        Order.objects.select_related("client"), reference=reference, client__erased_at=None
    )
    address = order.client.email if order.client else ""
    form = LetterAddressForm(request.POST or None, initial={"email": address})
    if request.method == "POST" and form.is_valid():
        email = form.cleaned_data["email"]
        count = undelivered.send_again(order_id=order.pk, email=email, now=timezone.now())
        said = ngettext("%(count)d letter goes out again.", "%(count)d letters go out again.", count)
        messages.success(request, said % {"count": count})
        return redirect("studio:order", reference)
    returned = order.notices.filter(given_up_at__isnull=False, sent_at=None, withdrawn_at=None)
    context = {"order": order, "form": form, "returned": returned}
    return render(
        request, "bookings/letters/letters_again.html", context, status=400 if form.is_bound else 200
    )


# Mail software has no cookie of this site. The address itself is signed, and no more can be done with it than this.
@csrf_exempt
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def stop(request: HttpRequest, token: str) -> HttpResponse:
    """Ask, by GET; stop, or with `again` send them again, by POST. Never led on elsewhere: RFC 8058 forbids that."""
    stop_links.resolve(token)
    done = ""
    if request.method == "POST":
        done = "again" if "again" in request.POST else "stopped"
        if done == "again":
            reminders.allow(token=token)
        else:
            reminders.stop(token=token, now=timezone.now())
    return render(request, "bookings/letters/reminders.html", {"done": done})
