"""The dark tent: one plate at a time, in red on black. Numbers only, so that a telephone may keep a copy of it."""

import json
from pathlib import Path
from uuid import uuid4

from django import forms
from django.conf import settings
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop
from django.views.decorators.http import require_POST, require_safe

from plates.bench.models import BenchDay
from plates.common.access import operator_of, photographer
from plates.errors import PlatesError
from plates.tent import services as service
from plates.tent.clocks import clocks
from plates.tent.selectors import screen as selector
from plates.tent.selectors.plates import LAST, STEPS, tent_plates

# A press is a few hundred bytes; nothing longer is read.
LONGEST = 2000
MISREAD = gettext_noop("That press could not be read, so nothing was changed.")


class TentPressForm(forms.Form):
    """A press as a form or a telephone sends it; without `at` it is made now."""

    press = forms.UUIDField()
    kind = forms.ChoiceField(choices=[(kind, kind) for kind in ("pour", "stage", "spoil", "undo")])
    slot = forms.IntegerField(min_value=1)
    plate = forms.IntegerField(min_value=1, required=False)
    pour = forms.UUIDField(required=False)
    stage = forms.ChoiceField(choices=[(stage, word) for stage, word in STEPS.values()], required=False)
    reason = forms.ChoiceField(choices=list(selector.REASONS.items()), required=False)
    at = forms.DateTimeField(required=False)

    def clean(self) -> dict[str, object]:
        """Moving on needs a stage, and giving up a reason."""
        needs = {"stage": "stage", "spoil": "reason"}.get(self.cleaned_data.get("kind", ""))
        if needs and not self.cleaned_data.get(needs):
            raise forms.ValidationError(_(MISREAD))
        return self.cleaned_data


@photographer
@require_safe
def tent(request: HttpRequest, bench_day_id: int) -> HttpResponse:
    return _page(request, _day(bench_day_id))


@photographer
@require_safe
def state(request: HttpRequest, bench_day_id: int) -> HttpResponse:
    return _answer(request, _day(bench_day_id))


@photographer
@require_POST
def press(request: HttpRequest, bench_day_id: int) -> HttpResponse:
    """Enter one press: a telephone is answered with the whole state, a form with the page."""
    day, form = _day(bench_day_id), TentPressForm(_sent(request))
    refusal, status = _(MISREAD), 400
    if form.is_valid():
        refusal, status = _record(request, day, form), 409
    if request.content_type == "application/json":
        return _answer(request, day, refusal, status if refusal else 200)
    if refusal:
        return _page(request, day, refusal, status)
    return redirect(f"{reverse('plates:tent', args=[day.pk])}{_stay(form)}")


@photographer
@require_safe
def worker(request: HttpRequest) -> HttpResponse:
    """The script that keeps the tent open without network; served from here because it rules only below its address."""
    script = (Path(settings.BASE_DIR) / "static" / "tent-worker.js").read_bytes()
    return HttpResponse(script, content_type="text/javascript")


@photographer
@require_safe
def light(request: HttpRequest) -> HttpResponse:
    day = request.GET.get("day", "")
    return render(request, "plates/tent/light.html", {"day_id": _number(day) or None})


def _day(bench_day_id: int) -> BenchDay:
    return get_object_or_404(BenchDay.objects.select_related("bench__largest_size"), pk=bench_day_id)


def _number(words: str) -> int:
    """The number of a row, 0 where it cannot be one."""
    return int(words) if words.isdecimal() and len(words) < 19 else 0


def _sent(request: HttpRequest) -> dict[str, str]:
    """The fields of a press, from a form or from JSON; nothing where it is no press at all."""
    if request.content_type != "application/json":
        return request.POST.dict()
    try:
        fields = json.loads(request.body) if len(request.body) <= LONGEST else None
    except (ValueError, RecursionError):
        return {}
    if not isinstance(fields, dict):
        return {}
    return {name: str(value) for name, value in fields.items() if value is not None}


def _record(request: HttpRequest, day: BenchDay, form: TentPressForm) -> str:
    """Enter it; the sentence of the refusal when that cannot be."""
    now = timezone.now()
    asked = service.TentPress(**(form.cleaned_data | {"at": form.cleaned_data["at"] or now}))
    try:
        service.record_press(day_id=day.pk, asked=asked, operator=operator_of(request), now=now)
    except PlatesError as refused:
        return str(refused)
    return ""


def _stay(form: TentPressForm) -> str:
    """Stay with the plate until it is in the wash, on the rack or given up."""
    done = form.cleaned_data["kind"] == "spoil" or form.cleaned_data["stage"] in ("washing", LAST)
    return "" if done else f"?plate={form.cleaned_data['slot']}"


def _answer(request: HttpRequest, day: BenchDay, refusal: str = "", status: int = 200) -> HttpResponse:
    now = timezone.now()
    plates = tent_plates(day=day, now=now)
    answer = selector.as_json(day=day, plates=plates, now=now)
    # Signing in changes the token, while the page of before goes on in the telephone.
    return JsonResponse(answer | {"refusal": refusal, "token": get_token(request)}, status=status)


def _page(request: HttpRequest, day: BenchDay, refusal: str = "", status: int = 200) -> HttpResponse:
    now, rows = timezone.now(), clocks(day.bench.as_capacity().timings, _)
    plates = tent_plates(day=day, now=now)
    asked = _number(request.GET.get("plate", ""))
    hand = selector.in_hand(plates=plates, rows=rows, asked=asked, now=now)
    others, later = selector.others(plates=plates, hand=hand.plate.slot if hand else 0)
    context = {
        "day": day,
        "state": json.dumps(selector.as_json(day=day, plates=plates, now=now)),
        "hand": hand,
        "others": [selector.card(plate=plate, rows=rows, now=now) for plate in others],
        "later": [selector.card(plate=plate, rows=rows, now=now) for plate in later],
        "undo": selector.newest_press(plates=plates, now=now),
        "reasons": selector.REASONS,
        "refusal": refusal,
        "key": uuid4,
    }
    return render(request, "plates/tent/tent.html", context, status=status)
