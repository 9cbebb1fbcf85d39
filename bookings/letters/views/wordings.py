"""The letters in the studio's own words: the list, and one of them with how it will look."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from bookings.letters.forms import WordingForm
from bookings.letters.models import Wording
from bookings.letters.placeholders import LETTERS, PLACEHOLDERS
from bookings.letters.selectors import wordings as selector
from bookings.letters.services import wordings
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
    wordings.keep(kind=asked, now=timezone.now(), **form.cleaned_data)
    messages.success(request, _("From now on the letter says it like that."))
    return redirect("studio:wording", kind)


def _page(
    request: HttpRequest, kind: NoticeKind, form: WordingForm, own: Wording | None, status: int = 200
) -> HttpResponse:
    seen = selector.shown(kind, own, now=timezone.now())
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
