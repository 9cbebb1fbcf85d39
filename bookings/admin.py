"""Set-up of the studio, its venues, prices and terms. Orders, payments and invoices are written by services only."""

import re
from typing import Any

from django import forms
from django.contrib import admin
from django.core.exceptions import ValidationError
from django.http import HttpRequest
from django.utils.translation import gettext as _

from bookings.diary.models import SittingDay, Venue
from bookings.orders.models import Order
from bookings.orders.wishes import discount_code
from bookings.outbox.models import Notice
from bookings.pricing.models import Discount, Extra, SizePrice, Surcharge, TaxClass, Terms
from bookings.studio.models import Studio
from plates.admin import ReadOnlyAdmin


@admin.register(Studio)
class StudioAdmin(admin.ModelAdmin[Studio]):
    def has_add_permission(self, request: HttpRequest) -> bool:
        return not Studio.objects.exists()

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(Venue)
class VenueAdmin(admin.ModelAdmin[Venue]):
    list_display = ["name", "zone"]


@admin.register(SittingDay)
class SittingDayAdmin(admin.ModelAdmin[SittingDay]):
    """Days are opened on the planner; here one can be hidden from clients, worked by daylight, and keep a line.

    Sittings that are promised already are kept, whatever the light.
    """

    list_display = ["__str__", "published", "by_daylight", "keeps_line"]
    fields = ["venue", "bench_day", "published", "by_daylight", "sun_height", "keeps_line"]
    readonly_fields = ["venue", "bench_day"]

    def has_add_permission(self, request: HttpRequest) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(TaxClass)
class TaxClassAdmin(admin.ModelAdmin[TaxClass]):
    list_display = ["name", "category", "rate_bp", "exemption_reason"]


@admin.register(SizePrice)
class SizePriceAdmin(admin.ModelAdmin[SizePrice]):
    list_display = ["size", "amount", "further_amount", "tax_class", "holds_from"]


@admin.register(Extra)
class ExtraAdmin(admin.ModelAdmin[Extra]):
    list_display = ["name", "kind", "amount", "offered"]


@admin.register(Surcharge)
class SurchargeAdmin(admin.ModelAdmin[Surcharge]):
    list_display = ["kind", "venue", "amount", "tax_class", "holds_from"]


class DiscountForm(forms.ModelForm[Discount]):
    """A code is kept as clients' typing of it is read, so that they can meet."""

    class Meta:
        model = Discount
        fields = "__all__"

    def clean_code(self) -> str:
        code = discount_code(str(self.cleaned_data["code"]))
        if not re.fullmatch("[A-Z0-9]{3,20}", code):
            raise ValidationError(_("Use 3 to 20 letters from A to Z and figures, for example HARBOUR10."))
        return code


@admin.register(Discount)
class DiscountAdmin(admin.ModelAdmin[Discount]):
    form = DiscountForm
    list_display = ["code", "text", "share_bp", "amount", "holds_from", "holds_until", "most_uses"]


@admin.register(Terms)
class TermsAdmin(admin.ModelAdmin[Terms]):
    """Terms that somebody has agreed to are kept as they were: write a new version instead."""

    list_display = ["version", "venue", "holds_from"]

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        agreed = obj is not None and Order.objects.filter(terms=obj).exists()
        return not agreed and super().has_change_permission(request, obj)


@admin.register(Notice)
class NoticeAdmin(ReadOnlyAdmin):
    list_display = ["order", "kind", "due_at", "sent_at", "tries", "last_error"]
