"""What is filled in about supplies."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from plates.bench.models import PlateSize
from plates.chemistry.hazards.substances import SUBSTANCES
from plates.common.forms import StoreForm
from plates.store.amounts import PLACES, SHOWN, small, typed
from plates.store.forms.batches import DAY
from plates.store.models import Supply, SupplyEvent
from plates.store.selectors.supplies import Container
from plates.store.services.supplies import Goods, Moved

MOST = Decimal(1_000_000)
SUBSTANCE_CHOICES = [
    ("", _("none, or not in the table of hazards")),
    *((key, _(each.name)) for key, each in SUBSTANCES.items()),
]
Kind = SupplyEvent.Kind
MOVES = [Kind.RECEIVED, Kind.USED, Kind.COUNTED, Kind.DISCARDED]
SEEN = [Kind.OPENED, Kind.TESTED, Kind.UNSOUND]


def amount_field(label: Any, **more: Any) -> forms.DecimalField:
    """Grams, millilitres or pieces."""
    facts: dict[str, Any] = {
        "min_value": Decimal(0),
        "max_value": MOST,
        "max_digits": 10,
        "decimal_places": 3,
    }
    return forms.DecimalField(label=label, **(facts | more))


class SupplyForm(StoreForm):
    name = forms.CharField(label=_("Name"), max_length=80)
    kind = forms.ChoiceField(label=_("What it is"), choices=Supply.Kind)
    unit = forms.ChoiceField(
        label=_("Kept in"),
        choices=[("mg", _("grams")), ("ul", _("millilitres")), ("piece", _("pieces"))],
    )
    pack = amount_field(_("In a pack (g, mL or pieces)"), min_value=Decimal("0.001"))
    pack_cost = forms.IntegerField(
        label=_("A pack costs (in the smallest unit, cents)"),
        min_value=0,
        max_value=100_000_000,
        required=False,
    )
    least = amount_field(_("Least that is to be left (g, mL or pieces)"), initial=0)
    substance = forms.ChoiceField(
        label=_("In the table of hazards"), choices=SUBSTANCE_CHOICES, required=False
    )
    size = forms.ModelChoiceField(
        label=_("For plates of this size"),
        queryset=PlateSize.objects.all(),
        required=False,
        empty_label=_("any"),
    )
    pieces_a_plate = forms.IntegerField(
        label=_("Pieces that go with each plate"), min_value=0, max_value=20, initial=0
    )
    kept = forms.BooleanField(label=_("Still bought and shown"), required=False, initial=True)

    def clean(self) -> dict[str, Any]:
        """What the database would refuse, in words beside the field."""
        cleaned = super().clean() or {}
        chemical = cleaned.get("kind") == Supply.Kind.CHEMICAL
        if "unit" in cleaned and chemical is (cleaned["unit"] == "piece"):
            self.add_error("unit", _("Chemicals are weighed or measured, everything else is counted."))
        if chemical and cleaned.get("pieces_a_plate"):
            self.add_error(
                "pieces_a_plate", _("What a plate takes of a chemical follows from its area: write 0.")
            )
        if not chemical and cleaned.get("substance"):
            self.add_error("substance", _("Only chemicals have a row in that table."))
        if cleaned.get("kind") == Supply.Kind.BLANK and not (
            cleaned.get("size") and cleaned.get("pieces_a_plate")
        ):
            self.add_error("size", _("Bare plates are of one size, and each plate takes at least one."))
        for name in ("pack", "least"):
            self._whole(name, cleaned)
        return cleaned

    def _whole(self, name: str, cleaned: dict[str, Any]) -> None:
        if cleaned.get("unit") == "piece" and cleaned.get(name, 0) % 1:
            self.add_error(name, _("There is no part of a piece: write a whole number."))

    def goods(self) -> Goods:
        """The clean values as the service takes them."""
        cleaned = self.cleaned_data
        amounts = {name: small(cleaned[name], cleaned["unit"]) for name in ("pack", "least")}
        return Goods(**(cleaned | amounts))


def supply_initial(supply: Supply) -> dict[str, object]:
    """What the form shows of a supply that is there."""
    facts = {name: getattr(supply, name) for name in SupplyForm.base_fields}
    return facts | {name: f"{typed(getattr(supply, name), supply.unit):f}" for name in ("pack", "least")}


class SupplyMoveForm(StoreForm):
    """What came, went or was counted of one supply, in its own unit."""

    kind = forms.ChoiceField(label=_("What happened"), choices=[(each.value, each.label) for each in MOVES])
    amount = amount_field(_("How much"))
    on = forms.DateField(label=_("On"), widget=DAY)
    cost = forms.IntegerField(
        label=_("Received for (in the smallest unit, cents)"),
        min_value=0,
        max_value=100_000_000,
        required=False,
    )
    label = forms.CharField(label=_("Label on the container"), max_length=40, required=False)
    container = forms.TypedChoiceField(
        label=_("Which one went to the waste"), coerce=int, empty_value=None, required=False
    )
    note = forms.CharField(label=_("Note"), max_length=200, required=False)

    def __init__(
        self, *args: Any, supply: Supply, containers: Sequence[Container], latest: date, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.supply, self.latest = supply, latest
        unit = SHOWN[supply.unit] or _("pieces")
        self.fields["amount"].label = _("How much (%(unit)s)") % {"unit": unit}
        self.fields["container"].choices = [("", "–"), *container_choices(containers)]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        kind, amount = cleaned.get("kind"), cleaned.get("amount")
        if amount == 0 and kind != Kind.COUNTED:
            self.add_error("amount", _("Say how much came or went; only a count may find nothing."))
        if amount and PLACES[self.supply.unit] == 0 and amount % 1:
            self.add_error("amount", _("There is no part of a piece: write a whole number."))
        if cleaned.get("cost") is not None and kind != Kind.RECEIVED:
            self.add_error("cost", _("Only what is received costs something."))
        if cleaned.get("container") and kind != Kind.DISCARDED:
            self.add_error("container", _("Choose a container only for what goes to the waste."))
        if (on := cleaned.get("on")) and on > self.latest:
            self.add_error("on", _("It is written down when it has happened, not before."))
        return cleaned

    def moved(self) -> Moved:
        cleaned = self.cleaned_data
        return Moved(
            kind=cleaned["kind"],
            amount=small(cleaned["amount"], self.supply.unit),
            on=cleaned["on"],
            cost=cleaned["cost"],
            label=cleaned["label"],
            container_id=cleaned["container"],
            note=cleaned["note"],
        )


class SeenForm(StoreForm):
    """What was seen of one container."""

    seen = forms.ChoiceField(label=_("What was seen"), choices=[(each.value, each.label) for each in SEEN])
    of = forms.TypedChoiceField(label=_("Of which container"), coerce=int)
    day = forms.DateField(label=_("On the day"), widget=DAY)
    peroxide = forms.DecimalField(
        label=_("Peroxide found (ppm)"),
        min_value=0,
        max_value=100_000,
        max_digits=8,
        decimal_places=1,
        required=False,
    )

    def __init__(self, *args: Any, containers: Sequence[Container], latest: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.latest = latest
        self.fields["of"].choices = container_choices(containers)  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or {}
        if (cleaned.get("seen") == Kind.TESTED) is (cleaned.get("peroxide") is None):
            self.add_error(
                "peroxide", _("A test for peroxide needs what was found, 0 for nothing; no other does.")
            )
        if (day := cleaned.get("day")) and day > self.latest:
            self.add_error("day", _("It is written down when it has happened, not before."))
        return cleaned


def container_choices(containers: Sequence[Container]) -> list[tuple[str, str]]:
    """Containers by what stands on them, or by the day they came."""
    return [
        (str(each.received.pk), f"{each.received.label or each.received.pk}, {each.received.on:%Y-%m-%d}")
        for each in containers
    ]
