"""The page of a quiet morning, and the closed days."""

from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.urls import reverse

from bookings.orders.models import Order
from bookings.studio.models import Studio
from plates.bench.models import Plate, PlateSlot, Stage
from plates.finishing.models import ClosedDay
from tests import builders
from tests.builders import NOW
from tests.reading.pages import Page

pytestmark = pytest.mark.django_db

HOUR = timedelta(hours=1)
PAGE, CLOSED = "/studio/finishing/", "/studio/closed-days/"


@pytest.fixture
def rack(day):
    """Plate 1 is dry, plate 2 is not, plate 3 has cured; each of a client of its own."""
    builders.finishing()
    names = {"Ines Madrugada": HOUR, "Wren Achterberg": HOUR / 2, "Ottilie Marrow": 24 * HOUR}
    stages = [Stage.DRYING, Stage.DRYING, Stage.VARNISHED]
    for hour, ((name, lain), stage) in enumerate(zip(names.items(), stages, strict=True)):
        at = day.bench_day.opens_at + hour * HOUR
        order = builders.a_paid_order(day, at=at, name=name)
        builders.made_plate(PlateSlot.objects.get(job=order.sitting.bench_job_id), stage, NOW - lain)


def press(client, *numbers, stage="varnished", key=None):
    ids = [Plate.objects.get(number=number).pk for number in numbers]
    return client.post(PAGE, {"plates": ids, "stage": stage, "press": key or uuid4()})


def stages():
    return list(Plate.objects.order_by("number").values_list("stage", flat=True))


def test_each_plate_is_shown_with_its_client_and_how_long_it_has_lain(photographer, rack):
    page = Page(photographer.get(PAGE))

    assert "Plate 1 , quarter, Ines Madrugada: 60 minutes; ready by 1 Dec" in page.text
    assert "Still drying Plate 2 , quarter, Wren Achterberg: 30 minutes" in page.text
    assert "To pack Varnished 24 hours ago or more." in page.text


def test_the_cautions_stand_on_the_page_and_leave_the_last_word_to_the_supplier(photographer, rack):
    text = Page(photographer.get(PAGE)).text

    assert "No flame, spark, stove or heater near open varnish" in text
    assert "Your supplier’s safety data sheet, your local fire code and licensed practice come first." in text


def test_what_is_ticked_is_varnished_by_one_press_and_the_page_says_so(photographer, rack):
    answer = press(photographer, 1)

    assert answer.url == PAGE
    assert (stages()[0], "1 plate is varnished." in Page(photographer.get(PAGE)).text) == ("varnished", True)


def test_a_press_sent_twice_is_one_press(photographer, rack):
    key = uuid4()

    answers = [press(photographer, 1, key=key).status_code for _ in range(2)]

    assert (answers, stages()[0]) == ([302, 302], "varnished")


def test_what_is_not_dry_is_told_and_what_was_ticked_stays_ticked(photographer, rack):
    answer = press(photographer, 1, 2)

    page = Page(answer)
    assert (answer.status_code, page.errors[0][:44]) == (
        400,
        "Not dry yet: plate 2 (30 minutes). The short",
    )
    assert page.fields["plates"] == str(Plate.objects.get(number=1).pk)
    assert stages() == ["drying", "drying", "varnished"]


def test_cured_plates_are_packed(photographer, rack):
    press(photographer, 3, stage="ready")

    assert stages()[2] == "ready"


@pytest.mark.parametrize(
    ("sent", "sentence"),
    [
        pytest.param({"stage": "varnished"}, "Tick at least one plate.", id="nothing ticked"),
        pytest.param({"stage": "varnished", "plates": ["9999"]}, "no longer on the rack", id="not there"),
        pytest.param({"stage": "varnished", "plates": ["x"]}, "no longer on the rack", id="no plate"),
        pytest.param({"stage": "handed_over", "plates": ["1"]}, "valid choice", id="another stage"),
    ],
)
def test_a_form_that_makes_no_sense_changes_nothing(photographer, rack, sent, sentence):
    answer = photographer.post(PAGE, sent | {"press": uuid4()})

    assert (answer.status_code, stages()) == (400, ["drying", "drying", "varnished"])
    assert any(sentence in error for error in Page(answer).errors)


def test_all_can_be_ticked_at_once_without_a_script(photographer, rack):
    assert Page(photographer.get(PAGE)).fields["plates"] is None
    ticked = Page(photographer.get(PAGE + "?tick=ready")).fields["plates"]

    assert ticked == str(Plate.objects.get(number=3).pk)


def test_a_promise_at_risk_is_told_beside_its_plate_in_the_queue_and_on_the_order(photographer, rack, day):
    order = Order.objects.get(client__name="Ines Madrugada")
    Order.objects.filter(pk=order.pk).update(at_risk_since=NOW, outlook_on=date(2026, 12, 4))

    texts = [
        Page(photographer.get(address)).text
        for address in (
            PAGE,
            reverse("studio:day", args=[day.pk]),
            reverse("studio:order", args=[order.reference]),
            reverse("studio:orders"),
        )
    ]

    assert "ready by 1 Dec, at risk" in texts[0]
    assert f"Order {order.reference} was promised by Tuesday 1 December 2026, which is at risk." in texts[1]
    assert "By the present outlook it is ready by Friday 4 December 2026." in texts[1]
    assert "at risk, by the present outlook it will be Friday 4 December 2026" in texts[2]
    assert "1 Dec 2026 at risk" in texts[3]


def test_an_empty_rack_is_told(photographer, day):
    assert "No plate lies on the rack." in Page(photographer.get(PAGE)).text


def test_a_rack_of_many_plates_is_asked_for_like_one_of_few(
    photographer, rack, django_assert_max_num_queries
):
    with django_assert_max_num_queries(10):
        photographer.get(PAGE)


def test_a_day_is_closed_and_opened_again(photographer, day):
    photographer.post(CLOSED, {"on": "2026-12-24", "why": "The family"})
    page = Page(photographer.get(CLOSED))
    assert "Thursday 24 December 2026 , The family" in page.text

    photographer.post(reverse("studio:open_again", args=[ClosedDay.objects.get().pk]))

    assert not ClosedDay.objects.exists()


@pytest.mark.parametrize("on", ["", "tomorrow", "1999-12-31", "2026-02-30"])
def test_a_date_that_is_none_closes_nothing(photographer, day, on):
    answer = photographer.post(CLOSED, {"on": on, "why": ""})

    assert (answer.status_code, ClosedDay.objects.count()) == (400, 0)


def test_public_holidays_are_proposed_and_nothing_is_closed_by_looking(photographer, day):
    page = Page(photographer.get(CLOSED + "?year=2027"))

    assert "Saturday 25 December 2027, Christmas Day" in page.text
    assert not ClosedDay.objects.exists()


def test_of_the_proposed_days_the_ticked_ones_are_closed(photographer, day):
    photographer.post(
        reverse("studio:close_holidays"), {"year": "2026", "days": ["2026-12-25", "2026-12-08"]}
    )

    assert [str(each) for each in ClosedDay.objects.all()] == [
        "2026-12-08 Immaculate Conception",
        "2026-12-25 Christmas Day",
    ]
    assert "Christmas Day" not in Page(photographer.get(CLOSED)).text.partition("Public holidays of 2026")[2]


@pytest.mark.parametrize(
    "sent",
    [
        pytest.param({"year": "2026"}, id="none ticked"),
        pytest.param({"year": "2026", "days": ["2026-12-24"]}, id="no holiday"),
        pytest.param({"year": "x", "days": ["2026-12-25"]}, id="no year"),
    ],
)
def test_nothing_else_is_closed_as_a_holiday(photographer, day, sent):
    photographer.post(reverse("studio:close_holidays"), sent)

    assert not ClosedDay.objects.exists()


def test_a_country_without_known_holidays_proposes_none(photographer, day):
    Studio.objects.update(country="XX")

    assert "None is left to propose." in Page(photographer.get(CLOSED)).text


def test_the_date_is_told_from_the_choice_of_a_time_on(client, day):
    """A plate of Saturday, varnished on Monday, cured on Tuesday: worked out in test_promises.py."""
    builders.finishing()
    size = builders.a_size()

    times = Page(client.get(f"{reverse('times')}?size_{size.pk}=1")).text

    assert "Ready by Tuesday 1 December 2026" in times
