"""Random orders brought all the way through services and database: looked at, held, placed, paid and invoiced."""

from datetime import UTC, date, datetime, timedelta
from uuid import uuid4

from django.db.models import Sum

from bookings.checkout import selectors as offers
from bookings.checkout.services import booking
from bookings.diary.models import SittingDay
from bookings.invoices.services import issuing as invoices
from bookings.orders.selectors.account import account
from bookings.orders.services import placing
from bookings.orders.wishes import Wish
from bookings.payments.services import ledger as payments
from bookings.pricing.models import Extra, SizePrice, TaxClass
from plates.bench.models import PlateSize
from tests import builders
from tests.builders import NOW

FIRST_DAY = date(2026, 12, 1)
A_DAY = 16  # orders, one every half hour
DETAILS = placing.Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})


def price_list(chance):
    """Four tax classes, three sizes, three extras, surcharges and codes at odd amounts."""
    kinds = [("S", 2300, ""), ("S", 600, ""), ("Z", 0, ""), ("E", 0, "Teaching")]
    classes = [
        TaxClass.objects.create(name=str(kind), category=kind[0], rate_bp=kind[1], exemption_reason=kind[2])
        for kind in kinds
    ]
    for name in ("sixth", "quarter", "half"):
        price = SizePrice.objects.filter(size=builders.a_size(name))
        price.update(
            amount=chance.randrange(5000, 15000),
            further_amount=chance.choice([None, chance.randrange(3000, 9000)]),
            tax_class=chance.choice(classes),
        )
    for name in ("Case", "Scan", "Post"):
        extra = builders.an_extra(name, amount=chance.randrange(500, 5000))
        extra.tax_class = chance.choice(classes)
        extra.save()
    builders.a_surcharge(amount=1533, tax_class=classes[1])
    builders.a_discount("TENTH", share_bp=1000)
    builders.a_discount("ODD", share_bp=3333)
    builders.a_discount("SUM", share_bp=None, amount=2501)
    builders.a_discount("GIFT", share_bp=10000)


def days_for(orders):
    """So many days of a bench with many hands that every order finds a place; at a venue that charges travel."""
    bench = builders.a_bench(operators=10, tank_places=10, wash_places=60, sitters_at_once=10)
    days = [
        builders.a_day(on=FIRST_DAY + timedelta(days=number), bench=bench)
        for number in range(-(-orders // A_DAY))
    ]
    builders.a_surcharge("travel", venue=days[0].venue, amount=1999)
    return days


def offered_in_turn(days):
    """Each day with no other on sale meanwhile: how many days are looked through is no part of what is summed."""
    SittingDay.objects.update(published=False)
    for day in days:
        SittingDay.objects.filter(pk=day.pk).update(published=True)
        yield day
        SittingDay.objects.filter(pk=day.pk).update(published=False)


def a_wish(chance):
    sizes = list(PlateSize.objects.order_by("pk"))
    return Wish(
        sizes=chance.choices(sizes, k=chance.choice([1, 1, 2, 3])),
        extras={extra: chance.randrange(1, 4) for extra in Extra.objects.all() if chance.random() < 0.4},
        sitters=chance.choice([1, 1, 2, 5]),
        code=chance.choice(["", "", "TENTH", "ODD", "SUM", "GIFT"]),
    )


def sums_of(day, number, chance):
    """The sum of one order as it was quoted, as it was charged, by the ledger, and by its invoice."""
    wish = a_wish(chance)
    told = next(each.quote for each in offers.offered(wish=wish, now=NOW).days if each.openings.day == day)
    ten = datetime(day.bench_day.on.year, day.bench_day.on.month, day.bench_day.on.day, 10, tzinfo=UTC)
    held = booking.hold_sitting(
        submission_key=uuid4(),
        day_id=day.pk,
        starts_at=ten + number * timedelta(minutes=30),
        wish=wish,
        now=NOW,
    )
    order = booking.place_order(order_id=held.pk, details=DETAILS, now=NOW)
    assert account(order).deposit == told.deposit_now
    for amount in (told.deposit_now, told.balance_later):
        if amount:
            builders.pay(order, amount)
    invoice = invoices.issue(order_id=order.pk, now=NOW)
    ledger = order.payments.aggregate(whole=Sum("amount"))["whole"] or 0
    assert (invoice.prepaid, invoice.due) == (ledger, 0)
    assert payments.confirm_if_covered(order_id=order.pk, now=NOW)
    return told.gross, account(order).gross, ledger, invoice.total + invoice.rounding
