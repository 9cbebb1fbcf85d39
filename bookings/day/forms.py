"""What is filled in at the queue of the day."""

from django import forms

from bookings.common.forms import StudioForm
from plates.bench.models import SpoiltReason


class SpoilForm(StudioForm):
    reason = forms.ChoiceField(choices=SpoiltReason.choices, widget=forms.RadioSelect)
    note = forms.CharField(max_length=200, required=False)
