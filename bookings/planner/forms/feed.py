"""What the calendar of a telephone is to hold."""

from django import forms
from django.utils.translation import gettext_lazy as _

from bookings.common.forms import LabelledForm


class FeedForm(LabelledForm):
    """Names are left out unless they are asked for."""

    with_names = forms.BooleanField(
        required=False,
        label=_("With clients’ names and telephone numbers"),
        help_text=_("Whoever sees the telephone or learns the address sees them too."),
    )
