"""Set-up of sizes and benches. The ledger is shown and never edited here."""

from collections.abc import Callable
from typing import Any

from django import forms
from django.contrib import admin
from django.core.exceptions import ValidationError
from django.db import models
from django.http import HttpRequest
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plates.bench.models import Bench, Plate, PlateEvent, PlateSize
from plates.capacity import CapacityValueError
from plates.finishing.models import ClosedDay, Finishing
from plates.schedule.selectors.openings import broken_by_size, broken_promises
from plates.store.models import StoreRoom


def refuse_broken(form: "forms.ModelForm[Any]", look: Callable[[], list[str]]) -> None:
    """Complain on the form about the promises that `look` finds broken by the values it carries."""
    if form.errors or form.instance.pk is None:
        return
    try:
        broken = look()
    except CapacityValueError as error:
        form.add_error(None, str(error))
        return
    if broken:
        form.add_error(None, ValidationError(["This would break promises already made.", *broken[:5]]))


class BenchForm(forms.ModelForm[Bench]):
    """A bench cannot be changed so that it breaks what it has promised."""

    class Meta:
        model = Bench
        fields = "__all__"

    def _post_clean(self) -> None:
        """Look at the promises once the instance carries the new values."""
        super()._post_clean()  # type: ignore[misc]  # a seam of Django's that its stubs leave out
        refuse_broken(self, lambda: broken_promises(bench=self.instance, now=timezone.now()))


class PlateSizeForm(forms.ModelForm[PlateSize]):
    """A size cannot be changed so that plates of it that are promised no longer fit the wash or the tank."""

    class Meta:
        model = PlateSize
        fields = "__all__"

    def _post_clean(self) -> None:
        """Look at the promises once the instance carries the new values."""
        super()._post_clean()  # type: ignore[misc]  # a seam of Django's that its stubs leave out
        refuse_broken(self, lambda: broken_by_size(size=self.instance, now=timezone.now()))


class StoreRoomForm(forms.ModelForm[StoreRoom]):
    """Cyanide is switched on by two words, never by one."""

    lawful = forms.BooleanField(
        label=_(
            "The law here allows us cyanide, we hold what it asks for, and we never take it out of the studio"
        ),
        required=False,
        help_text=_("To be said again whenever these figures are saved with cyanide switched on."),
    )

    class Meta:
        model = StoreRoom
        fields = "__all__"

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if cleaned.get("cyanide_on") and not cleaned.get("lawful"):
            self.add_error(
                "lawful", _("Cyanide stays off until you say so here too. Hypo does the same work.")
            )
        return cleaned


class ReadOnlyAdmin(admin.ModelAdmin[models.Model]):
    """Rows that only services write."""

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(PlateSize)
class PlateSizeAdmin(admin.ModelAdmin[PlateSize]):
    form = PlateSizeForm
    list_display = ["name", "width_mm", "height_mm", "area_cm2", "wash_places", "offered"]


@admin.register(Bench)
class BenchAdmin(admin.ModelAdmin[Bench]):
    form = BenchForm
    list_display = ["name", "operators", "tank_places", "wash_places", "sitters_at_once"]


WEEKDAYS = [
    ("1", _("Monday")),
    ("2", _("Tuesday")),
    ("3", _("Wednesday")),
    ("4", _("Thursday")),
    ("5", _("Friday")),
    ("6", _("Saturday")),
    ("7", _("Sunday")),
]


class FinishingForm(forms.ModelForm[Finishing]):
    """The days of work are ticked; they are kept as their numbers by ISO 8601."""

    weekdays = forms.MultipleChoiceField(
        label=_("Days of work"),
        choices=WEEKDAYS,
        widget=forms.CheckboxSelectMultiple,
        help_text=_("On these plates are varnished, packed and handed over, but not on closed days."),
    )

    class Meta:
        model = Finishing
        fields = "__all__"

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.initial["weekdays"] = list(self.instance.weekdays)

    def clean_weekdays(self) -> str:
        return "".join(sorted(self.cleaned_data["weekdays"]))


@admin.register(Finishing)
class FinishingAdmin(admin.ModelAdmin[Finishing]):
    """Dates that were promised stay as they are; what is at risk by new numbers is shown in the queue."""

    form = FinishingForm

    def has_add_permission(self, request: HttpRequest) -> bool:
        return not Finishing.objects.exists()

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(ClosedDay)
class ClosedDayAdmin(admin.ModelAdmin[ClosedDay]):
    list_display = ["on", "why"]


@admin.register(Plate)
class PlateAdmin(ReadOnlyAdmin):
    list_display = ["number", "size", "stage", "stage_at", "spoilt_reason"]
    list_filter = ["stage", "spoilt_reason", "size"]
    search_fields = ["number"]


@admin.register(PlateEvent)
class PlateEventAdmin(ReadOnlyAdmin):
    list_display = ["plate", "stage", "at", "operator", "note"]


@admin.register(StoreRoom)
class StoreRoomAdmin(admin.ModelAdmin[StoreRoom]):
    """The one row of figures; without it the usual ones hold."""

    form = StoreRoomForm

    def has_add_permission(self, request: HttpRequest) -> bool:
        return not StoreRoom.objects.exists()

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def save_model(self, request: HttpRequest, obj: StoreRoom, form: Any, change: bool) -> None:
        obj.pk = 1
        super().save_model(request, obj, form, change)
