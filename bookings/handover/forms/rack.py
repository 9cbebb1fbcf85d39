"""What is ticked and filled in about finishing, closed days and handing over. Nothing here writes."""

from datetime import date
from typing import Any
from uuid import uuid4

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from bookings.common.forms import StudioForm
from plates.bench.models import Stage

FIRST_YEAR, LAST_YEAR = 2000, 2999


class BatchForm(StudioForm):
    """Plates that are ticked, what was done with all of them, and the key of the press."""

    plates = forms.TypedMultipleChoiceField(coerce=int, widget=forms.MultipleHiddenInput)
    stage = forms.ChoiceField(
        choices=[(stage.value, stage.label) for stage in (Stage.VARNISHED, Stage.READY)],
        widget=forms.HiddenInput,
    )
    press = forms.UUIDField(initial=uuid4, widget=forms.HiddenInput)

    def __init__(self, *args: Any, on_rack: list[int], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["plates"].choices = [(plate_id, str(plate_id)) for plate_id in on_rack]  # type: ignore[attr-defined]
        self.fields["plates"].error_messages["invalid_choice"] = _(
            "One of these plates is no longer on the rack. Look again."
        )
        self.fields["plates"].error_messages["required"] = _("Tick at least one plate.")

    def batch(self) -> dict[str, Any]:
        """What `plates.finishing.services.bring_on` is to be told."""
        cleaned = self.cleaned_data
        return {"plate_ids": cleaned["plates"], "stage": cleaned["stage"], "press": cleaned["press"]}

    def ticked(self) -> set[int]:
        """The plates that were ticked when the form came back with a complaint."""
        sent = self.data.getlist("plates") if self.is_bound else []  # type: ignore[attr-defined]
        return {int(each) for each in sent if each.isdecimal() and len(each) < 19}


class ClosedDayForm(StudioForm):
    """One date on which the studio does not work."""

    on = forms.DateField(label=_("Date"), widget=forms.DateInput(attrs={"type": "date"}))
    why = forms.CharField(label=_("Why"), max_length=80, required=False)

    def clean_on(self) -> date:
        on: date = self.cleaned_data["on"]
        if not FIRST_YEAR <= on.year <= LAST_YEAR:
            raise ValidationError(
                _("Choose a date between the years %(first)s and %(last)s.")
                % {"first": FIRST_YEAR, "last": LAST_YEAR}
            )
        return on
