"""What the photographer fills in to change a sitting."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from bookings.common.forms import StudioForm
from bookings.orders.models import CancelCause
from bookings.orders.selectors.account import Cancelling


class CancelForm(StudioForm):
    """Who cancels; each choice says what it keeps, which the page shows beside it."""

    cause = forms.ChoiceField(label=gettext_lazy("Why is it cancelled?"), widget=forms.RadioSelect)
    kept = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, left: Sequence[Cancelling], **kwargs: Any) -> None:
        by_client = [each.kept for each in left if each.cause == CancelCause.CLIENT]
        only = left[0].cause if len(left) == 1 else None
        kwargs.setdefault("initial", {"kept": by_client[0] if by_client else None, "cause": only})
        super().__init__(*args, **kwargs)
        self.fields["cause"].choices = [(each.cause.value, each.cause.label) for each in left]  # type: ignore[attr-defined]

    def cancellation(self) -> dict[str, Any]:
        """What `sittings.cancel` is to be told; what was shown counts where something can be kept."""
        cause = CancelCause(self.cleaned_data["cause"])
        return {"cause": cause, "shown": self.cleaned_data["kept"] if cause == CancelCause.CLIENT else None}


class MoveForm(StudioForm):
    """Who asked for another time, and what the page said it would cost."""

    asked_by = forms.ChoiceField(
        label=gettext_lazy("Who asked for the change?"),
        choices=[
            ("client", gettext_lazy("The client")),
            ("studio", gettext_lazy("The studio asked for it: no charge")),
        ],
        widget=forms.RadioSelect,
        initial="client",
        required=False,
    )
    price = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def change(self) -> dict[str, Any]:
        """What `sittings.move` is to be told, of a form that was checked or not sent at all."""
        cleaned = self.cleaned_data if self.is_bound else {}
        by_client = cleaned.get("asked_by") != "studio"
        return {"by_client": by_client, "shown": cleaned.get("price") if by_client else None}
