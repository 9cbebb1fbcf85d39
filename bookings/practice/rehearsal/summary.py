"""What the rehearsal shows, and whether it came out even."""

from django.db.models import Sum

from bookings.common.formats import amount, clock, long_date
from bookings.orders.models import OrderLine
from bookings.payments.models import Payment
from bookings.planner.selectors.days import hours
from bookings.practice.rehearsal.day import ON, Rehearsal
from bookings.studio.selectors import the_studio
from plates import capacity
from plates.bench.models import Plate, PlateSize, Stage
from plates.schedule.selectors.openings import promised_jobs


def differences(rehearsal: Rehearsal) -> list[str]:
    """Everything that did not come out even; empty when the day did."""
    day = rehearsal.day.bench_day
    booked = [job.as_booked() for job in promised_jobs(day=day, now=rehearsal.ended_at)]
    found = list(capacity.problems(day.bench.as_capacity(), day.as_capacity(), booked))
    charged = sum(line.quantity * line.unit_amount for line in OrderLine.objects.all())
    paid = Payment.objects.aggregate(paid=Sum("amount"))["paid"] or 0
    invoiced = sum(invoice.total + invoice.rounding for invoice in rehearsal.invoices)
    if not charged == paid == invoiced:
        found.append(f"Charged {charged}, paid {paid} and invoiced {invoiced} differ.")
    numbers = [invoice.number for invoice in rehearsal.invoices]
    if numbers != list(range(1, len(numbers) + 1)):
        found.append(f"The invoice numbers have a gap: {numbers}.")
    if Plate.objects.exclude(stage__in=[Stage.HANDED_OVER, Stage.SPOILT]).exists():
        found.append("A plate was neither handed over nor spoilt.")
    return found


def summary(rehearsal: Rehearsal) -> str:
    """A page of plain text about the day."""
    studio = the_studio()
    plates = Plate.objects.count()
    paid = Payment.objects.aggregate(paid=Sum("amount"))["paid"] or 0
    lines = [
        f"{studio.name}, rehearsal of {long_date(ON)}",
        "",
        f"{len(rehearsal.sold.orders)} sittings sold.",
        f"{plates} plates poured, {len(rehearsal.spoilt)} spoilt and made again.",
        f"The next one asking was told: {rehearsal.sold.refusal}",
        "",
        "Hour   plates booked / most the bench can make   bound by",
        *_hour_lines(rehearsal),
        "",
        f"{amount(paid, studio.currency)} came in: deposits, then balances at pickup.",
        f"{len(rehearsal.invoices)} invoices, {rehearsal.invoices[0].label} to {rehearsal.invoices[-1].label}.",
        f"{rehearsal.letters} letters sent.",
    ]
    return "\n".join(lines) + "\n"


def _hour_lines(rehearsal: Rehearsal) -> list[str]:
    quarter = PlateSize.objects.get(name="Quarter")
    found = hours(day=rehearsal.day, size=quarter, now=rehearsal.day.bench_day.opens_at)
    return [
        f"{clock(hour.begins_at)}  {hour.booked:>2} / {hour.limit:<2}   {hour.bound_by or 'nothing'}"
        for hour in found
    ]
