"""What is filled in where plates leave the house."""

from collections.abc import Collection, Mapping
from datetime import date
from typing import Any
from uuid import uuid4

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy
from django.utils.translation import gettext_lazy as _
from django_stubs_ext import StrOrPromise

from bookings.common.forms import FIRST_YEAR, LAST_YEAR, LabelledForm, StudioForm
from bookings.handover.models import HandedTo, NamedPerson, Parcel
from bookings.handover.public_holidays import public_holidays
from plates.bench.models import Stage


class HandOverForm(StudioForm):
    """Who collects, the code they show, and the name they sign with or a note."""

    to = forms.ChoiceField(label=_("Who collects?"), widget=forms.RadioSelect)
    code = forms.CharField(
        label=_("Code"),
        max_length=20,
        required=False,
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "characters"}),
        help_text=_("From the letter or the pickup notice, with or without its dash."),
    )
    signed = forms.CharField(
        label=_("Name of who signs"),
        max_length=120,
        required=False,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )
    note = forms.CharField(
        label=_("Note"),
        max_length=200,
        required=False,
        help_text=_("Without the code: how you know the client."),
    )
    press = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    def __init__(self, *args: Any, person: NamedPerson | None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choices: list[tuple[str, StrOrPromise]] = [(HandedTo.CLIENT.value, HandedTo.CLIENT.label)]
        if person is not None:
            choices.append((HandedTo.NAMED.value, person.name))
        self.fields["to"].choices = choices  # type: ignore[attr-defined]
        self.initial.setdefault("to", HandedTo.CLIENT.value)

    def handing(self) -> dict[str, Any]:
        """What `handover.hand_over` is to be told."""
        cleaned = self.cleaned_data
        words = {name: cleaned[name].strip() for name in ("code", "signed", "note")}
        return {"to": HandedTo(cleaned["to"]), "press": cleaned["press"], **words}


class ParcelForm(StudioForm):
    """The carrier and the number of a parcel."""

    carrier = forms.CharField(label=_("Carrier"), max_length=60)
    number = forms.CharField(
        label=_("Number of the parcel"), max_length=60, widget=forms.TextInput(attrs={"autocomplete": "off"})
    )
    press = forms.UUIDField(widget=forms.HiddenInput, initial=uuid4)

    @classmethod
    def of(cls, parcel: Parcel) -> "ParcelForm":
        """The form with what was entered of a parcel."""
        return cls(initial={"carrier": parcel.carrier, "number": parcel.number})

    def parcel(self) -> dict[str, Any]:
        """What `posting.post` is to be told."""
        return dict(self.cleaned_data)

    def corrected(self) -> dict[str, Any]:
        """What `posting.put_right` is to be told."""
        return {name: self.cleaned_data[name] for name in ("carrier", "number")}


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


YEARS_AHEAD = 2


class HolidaysForm(StudioForm):
    """Which of the public holidays of a year the studio keeps."""

    year = forms.IntegerField(min_value=2000, max_value=2999)
    days = forms.MultipleChoiceField(label=_("Public holidays"))

    def __init__(self, data: Mapping[str, Any], *, country: str, locale: str) -> None:
        super().__init__(data)
        self.known = public_holidays(country, self.asked_year(data, 2000), locale)
        self.fields["days"].choices = [(on.isoformat(), why) for on, why in self.known.items()]  # type: ignore[attr-defined]

    @staticmethod
    def asked_year(data: Mapping[str, Any], this: int) -> int:
        """The year asked for, if it can be one."""
        year = str(data.get("year", ""))
        return int(year) if year.isdecimal() and len(year) == 4 and 2000 <= int(year) <= 2999 else this

    @staticmethod
    def left(proposed: Mapping[date, str], closed: Collection[date]) -> dict[date, str]:
        """Those that are not closed yet."""
        return {on: why for on, why in proposed.items() if on not in closed}

    def days_kept(self) -> dict[date, str]:
        """The ticked days, each with its name."""
        return {on: why for on, why in self.known.items() if on.isoformat() in self.cleaned_data["days"]}


class NameForm(LabelledForm):
    """Who else may collect the plates."""

    name = forms.CharField(
        label=gettext_lazy("Their name, as they would say it at the door"),
        max_length=120,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
        error_messages={"required": gettext_lazy("Write the name of who may collect your plates.")},
    )
