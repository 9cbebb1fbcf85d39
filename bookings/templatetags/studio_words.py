"""Money, dates and clock times in templates, by the studio's locale and the venue's clock."""

from collections.abc import Sequence
from datetime import date, datetime

from django import forms, template
from django.forms import BoundField
from django.template import Context
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings.checkout.forms import WishForm
from bookings.common import formats
from bookings.diary.models import SittingDay
from bookings.invoices import paper as invoice_paper
from bookings.planner.selectors.days import PlannedHour
from bookings.pricing.models import Extra, SizePrice
from bookings.vouchers.models import Voucher
from plates.common import words

register = template.Library()
register.filter(words.within)
register.simple_tag(words.language)
register.simple_tag(words.language_tag)


def _locale(context: Context) -> str:
    studio = context.get("studio")
    return studio.locale if studio else "en_GB"


@register.simple_tag(takes_context=True)
def money(context: Context, minor: int, currency: str) -> str:
    """An amount in minor units, for example {% money order.total order.currency %}."""
    return formats.amount(minor, currency, _locale(context))


@register.simple_tag(takes_context=True)
def day_words(context: Context, day: date) -> str:
    """A date in words."""
    return formats.long_date(day, _locale(context))


@register.filter
def clock(local: datetime) -> str:
    """The time of day of an instant that is already on its venue's clock."""
    return formats.clock(local)


@register.filter
def clock_at(instant: datetime, day: SittingDay) -> str:
    """The time of day of any instant on the clock of the day's venue."""
    return formats.clock(day.local(instant))


@register.filter
def date_at(instant: datetime, day: SittingDay) -> date:
    """The date of any instant at the day's venue."""
    return day.local(instant).date()


@register.filter
def in_groups(code: str) -> str:
    """The code of a voucher, to be read aloud."""
    return formats.in_groups(code)


@register.filter
def voucher_reference(voucher: Voucher) -> str:
    """What is given with the money for a voucher."""
    return formats.voucher_reference(voucher.code)


@register.filter
def percent(bp: int) -> str:
    """Basis points as per cent."""
    return formats.percent(bp)


@register.filter
def in_hundred(chance: float) -> str:
    """A chance from 0 to 1 as per cent, to a tenth below ten."""
    share = 100 * chance
    return f"{share:.1f} %" if 0 < share < 9.95 else f"{share:.0f} %"


@register.filter
def over(chance: float, limit: int) -> bool:
    """Whether a chance from 0 to 1 has reached so many in a hundred."""
    return 100 * chance >= limit


@register.filter
def size_fields(form: WishForm) -> list[tuple[SizePrice, BoundField]]:
    """Each size that is for sale with the field that asks how many."""
    return [(price, form[f"size_{price.size_id}"]) for price in form.prices]


@register.filter
def extra_fields(form: WishForm) -> list[tuple[Extra, BoundField]]:
    """Each extra that is for sale with the field that asks how many."""
    return [(extra, form[f"extra_{extra.pk}"]) for extra in form.extras]


@register.filter
def first_control(field: BoundField) -> str:
    """The id that a link to this field goes to: its control, or the first one of several."""
    if isinstance(field.field.widget, forms.RadioSelect | forms.CheckboxSelectMultiple):
        return f"{field.auto_id}_0"
    return str(field.auto_id)


@register.filter
def most_plates(hours: Sequence[PlannedHour]) -> int:
    """The longest bar among these hours, so that all are drawn to one scale."""
    return max([1, *(max(hour.limit, hour.booked) for hour in hours)])


HOURS_FROM = 120  # minutes
DAYS_FROM = 48 * 60


@register.filter
def lain(minutes: int) -> str:
    """Minutes up to two hours, then hours up to two days, then days; each rounded down."""
    if minutes < HOURS_FROM:
        return ngettext("%(n)d minute", "%(n)d minutes", minutes) % {"n": max(0, minutes)}
    if minutes < DAYS_FROM:
        return _("%(n)d hours") % {"n": minutes // 60}
    return _("%(n)d days") % {"n": minutes // 1440}


@register.filter
def tax_name(category: str, rate_bp: int) -> str:
    """A tax category of EN 16931 with its rate, as a person reads it."""
    return invoice_paper.tax_name(category, rate_bp)
