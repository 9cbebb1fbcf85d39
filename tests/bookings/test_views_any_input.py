"""Whatever is sent, no form answers with a server error (the client of these tests raises what a view raises)."""

from datetime import UTC, datetime, time, timedelta
from uuid import uuid4

import pytest
from django.urls import reverse
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bookings.orders import links
from bookings.orders.models import Order
from bookings.payments.models import Method
from bookings.vouchers.models import WrongCode
from plates.bench.models import Plate, PlateSize, PlateSlot, SpoiltReason, Stage
from tests import builders

pytestmark = pytest.mark.django_db

TEN = datetime(2026, 11, 28, 10, tzinfo=UTC)

# The rows are built once and the examples sent one after another, as one hostile visitor would.
many = settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])

HOSTILE = st.sampled_from(
    [
        *[
            "",
            " ",
            "\0",
            "-1",
            "0",
            "7",
            "1e9",
            "9" * 40,
            "9" * 5000,
            "NaN",
            "None",
            "' OR 1=1 --",
            "%s",
            "{{ 7 }}",
        ],
        *[
            "<script>",
            "\u202e",
            "\ud7ff",
            "é" * 300,
            "x" * 10_000,
            "2026-02-30",
            "24:00",
            "9999-12-31",
            "0001-01-01",
        ],
    ]
)
ANYTHING = st.one_of(st.text(max_size=80), HOSTILE, st.integers().map(str), st.datetimes().map(str))
OFFSETS = st.sampled_from(["", "Z", "+00:00", "-23:59", "+14:00", "+00:00:01"])
# "DAY" stands for the id of the one day there is: around its opening at ten, or at any time at all.
NEAR = st.integers(-300, 2000).map(lambda minutes: f"DAY {(TEN + timedelta(minutes=minutes)).isoformat()}")
FAR = st.builds(lambda moment, offset: f"DAY {moment.isoformat()}{offset}", st.datetimes(), OFFSETS)
START = st.just(f"DAY {TEN.isoformat()}") | NEAR | FAR
KEY = st.uuids().map(str) | st.just("6f0e4a52-3f0c-4f43-9a55-0d1f8f1e7a10")


def sent(**fields):
    """The fields all sound, or with one of them unsound, or any of them with anything and others nobody asked for."""
    sound = st.fixed_dictionaries(fields)
    one_wrong = st.tuples(sound, st.sampled_from(sorted(fields)), ANYTHING).map(
        lambda drawn: drawn[0] | {drawn[1]: drawn[2]}
    )
    known = {name: ANYTHING | value for name, value in fields.items()}
    others = st.dictionaries(st.text(min_size=1, max_size=12), ANYTHING, max_size=3)
    mixed = st.tuples(others, st.fixed_dictionaries({}, optional=known)).map(lambda both: both[0] | both[1])
    return st.one_of(sound, one_wrong, mixed)


@pytest.fixture
def short_day():
    for name in ("quarter", "half"):
        builders.a_size(name)
    builders.an_extra()
    return builders.a_day(closes=time(11), racks_empty_by=time(12, 30))


def quantities():
    return {f"{kind}_{row}": st.integers(0, 3).map(str) for kind in ("size", "extra") for row in (1, 2)}


def made_real(fields, day):
    """The same for the rows that are there: their ids are not the same in every database."""
    ids = PlateSize.objects.values_list("pk", flat=True)
    wish = {f"size_{size}": fields.get(f"size_{place}", "") for place, size in enumerate(ids, start=1)}
    start = {"start": fields["start"].replace("DAY", str(day.pk), 1)} if "start" in fields else {}
    return fields | wish | start


def refused_in_words(response):
    assert response.status_code in {200, 302, 400, 409}
    if response.status_code in {400, 409}:
        assert "<h1>" in response.content.decode()


@many
@given(fields=sent(**quantities()))
def test_any_wish(client, short_day, fields):
    refused_in_words(client.get(reverse("times"), made_real(fields, short_day)))


@many
@given(fields=sent(start=START, submission_key=KEY, **quantities()))
def test_any_hold(client, short_day, fields):
    refused_in_words(client.post(reverse("hold"), made_real(fields, short_day)))


@many
@given(
    fields=sent(
        name=st.text(max_size=130),
        email=st.emails(),
        phone=st.text(max_size=50),
        consent_show=st.just("on"),
        cautions=st.just("on"),
        start=START,
    )
)
def test_any_details(client, short_day, fields):
    order = builders.a_held_order(short_day) if not Order.objects.exists() else Order.objects.get()
    Order.objects.update(placed_at=None)

    refused_in_words(
        client.post(reverse("details", args=[links.checkout_token(order)]), made_real(fields, short_day))
    )


@many
@given(
    fields=sent(
        direction=st.sampled_from(["received", "returned"]),
        amount=st.decimals(-10, 10**9).map(str),
        method=st.sampled_from(Method.values),
        reference=st.text(max_size=70),
        note=st.text(max_size=210),
        key=KEY,
    )
)
def test_any_payment(photographer, short_day, fields):
    order = Order.objects.first() or builders.a_placed_order(short_day)

    refused_in_words(photographer.post(reverse("studio:order", args=[order.reference]), fields))


@many
@given(
    fields=sent(
        amount=st.decimals(0, 2000).map(str),
        buyer_name=st.text(max_size=130),
        buyer_email=st.emails(),
        for_name=st.text(max_size=130),
        message=st.text(max_size=310),
        key=KEY,
    )
)
def test_any_voucher(client, short_day, fields):
    refused_in_words(client.post(reverse("give_voucher"), fields))


@many
@given(
    fields=sent(code=ANYTHING, at_most=st.decimals(0, 100).map(str), key=KEY, back=ANYTHING, voucher=ANYTHING)
)
def test_any_code(photographer, short_day, fields):
    order = Order.objects.first() or builders.a_placed_order(short_day)
    WrongCode.objects.all().delete()  # else the eleventh is refused before it is read

    refused_in_words(photographer.post(reverse("use_voucher", args=[links.checkout_token(order)]), fields))
    for page in ("redeem", "give_back"):
        refused_in_words(photographer.post(reverse(f"studio:{page}", args=[order.reference]), fields))


@many
@given(fields=sent(start=START))
def test_any_move(photographer, short_day, fields):
    order = Order.objects.first() or builders.a_placed_order(short_day)

    refused_in_words(
        photographer.post(reverse("studio:move", args=[order.reference]), made_real(fields, short_day))
    )


@many
@given(fields=sent(stage=st.sampled_from(Stage.values)))
def test_any_press(photographer, short_day, fields):
    if not Plate.objects.exists():
        builders.made_plates(builders.a_paid_order(short_day), stage=Stage.POURED)

    refused_in_words(photographer.post(reverse("studio:press", args=[Plate.objects.first().pk]), fields))


@many
@given(fields=sent(reason=st.sampled_from(SpoiltReason.values), note=st.text(max_size=210)))
def test_any_reason_to_give_a_plate_up(photographer, short_day, fields):
    slot = PlateSlot.objects.first() or PlateSlot.objects.get(
        job=builders.a_paid_order(short_day).sitting.bench_job
    )
    plate = slot.plates.exclude(stage=Stage.SPOILT).first() or builders.made_plate(
        slot, Stage.POURED, builders.NOW
    )

    refused_in_words(photographer.post(reverse("studio:spoil", args=[plate.pk]), fields))


@many
@given(
    fields=sent(
        venue=st.just("1"),
        bench=st.just("1"),
        on=st.dates().map(str),
        opens=st.times().map(str),
        closes=st.times().map(str),
        racks_empty_by=st.times().map(str),
        start_every=st.integers(1, 240).map(str),
    )
)
def test_any_day_to_open(photographer, short_day, fields):
    here = {"venue": short_day.venue_id, "bench": short_day.bench_day.bench_id}
    rows = {name: row for name, row in here.items() if fields.get(name) == "1"}

    refused_in_words(photographer.post(reverse("studio:planner"), fields | rows))


@many
@given(fields=sent(q=ANYTHING, size=ANYTHING))
def test_any_question(photographer, short_day, fields):
    refused_in_words(photographer.get(reverse("studio:orders"), fields))
    refused_in_words(photographer.get(reverse("studio:plan_day", args=[short_day.pk]), fields))


@many
@given(fields=sent(username=st.just("operator"), password=ANYTHING, next=ANYTHING))
def test_any_sign_in(client, short_day, fields):
    username = f"{fields.pop('username', '')[:40]}{uuid4()}" if "username" in fields else ""

    refused_in_words(client.post(reverse("login"), fields | {"username": username}))
