"""What is filled in where plates leave the house. Forms only make clean values; nothing here writes."""

from typing import Any
from uuid import uuid4

from django import forms
from django.utils.translation import gettext_lazy as _
from django_stubs_ext import StrOrPromise

from bookings.common.forms import StudioForm
from bookings.handover.models import HandedTo, NamedPerson, Parcel


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
