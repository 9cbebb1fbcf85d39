"""The ledger of all plates as a page and as a file: what is found, what is refused, how often the rows are asked."""

import csv
import io
from datetime import date, time, timedelta
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from bookings.orders.models import Order
from plates.bench.models import PlateSlot, SpoiltReason, Stage
from plates.ledger.services import events as ledger
from plates.ledger.services import facts, undo
from plates.ledger.services.facts import Noted
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

PLATES, EXPORT = reverse("plates:plates"), reverse("plates:export")
PERSON = {"name": "Ines Madrugada", "email": "ines@example.org", "phone": "+351 555 010 010"}


@pytest.fixture(scope="module")
def made(rows_for_all):
    """Four plates of two days: 1 ready, 2 spoilt by fog, 3 made in its place, 4 a whole plate in the wash."""
    first = builders.a_paid_order(builders.a_day(), sizes=["quarter", "quarter"], **PERSON)
    later = builders.a_day(on=date(2026, 12, 5))
    second = builders.a_paid_order(later, at=time(12), sizes=["whole"], **PERSON)
    slots = list(PlateSlot.objects.filter(job=first.sitting.bench_job_id))
    one = builders.made_plate(slots[0], Stage.READY, NOW)
    two = builders.made_plate(slots[1], Stage.DEVELOPED, NOW)
    ledger.spoil(plate_id=two.pk, reason=SpoiltReason.FOGGED, note="", operator=None, now=NOW)
    three = builders.made_plate(slots[1], Stage.READY, NOW)
    four = builders.made_plate(PlateSlot.objects.get(job=second.sitting.bench_job), Stage.WASHING, NOW)
    said = Noted(batch="C 14", bath="Bath two", exposure_seconds=Decimal("4.5"), lens="=cmd", notes="a\r\nb")
    facts.note(plate_id=one.pk, noted=said, operator=None, now=NOW)
    facts.note(plate_id=four.pk, noted=Noted(batch="C 15", bath="Bath one"), operator=None, now=NOW)
    return [one, two, three, four]


def a_wrong_press(plate):
    """A plate number that was given out and taken back at once."""
    wrong = ledger.pour(slot_id=plate.slot_id, operator=None, now=NOW)
    undo.undo_press(plate_id=wrong.pk, operator=None, now=NOW + timedelta(seconds=5))
    return wrong


def found(client, **asked):
    response = client.get(PLATES, asked)
    assert response.status_code == 200
    return [plate.number for plate in response.context["page"]]


def table(client, **asked):
    response = client.get(EXPORT, asked)
    text = b"".join(response.streaming_content).decode()
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_every_plate_is_there_newest_first(photographer, made):
    assert found(photographer) == [4, 3, 2, 1]


@pytest.mark.parametrize(
    ("asked", "numbers"),
    [
        ({"number": "2"}, [2]),
        ({"number": "99"}, []),
        ({"stage": "ready"}, [3, 1]),
        ({"stage": "spoilt"}, [2]),
        ({"reason": "fogged"}, [2]),
        ({"reason": "moved"}, []),
        ({"since": "2026-12-01"}, [4]),
        ({"until": "2026-11-28"}, [3, 2, 1]),
        ({"since": "2026-11-29", "until": "2026-12-04"}, []),
        ({"batch": "c 1"}, [4, 1]),
        ({"batch": "C 14"}, [1]),
        ({"bath": "one"}, [4]),
        ({"batch": "C 14", "stage": "washing"}, []),
    ],
)
def test_what_is_looked_for_is_found_on_the_page_and_in_the_file(photographer, made, asked, numbers):
    assert found(photographer, **asked) == numbers
    assert [int(row["number"]) for row in table(photographer, **asked)] == numbers


def test_plates_of_one_size_are_found(photographer, made):
    assert found(photographer, size=builders.a_size("whole").pk) == [4]


def test_a_wrong_press_is_shown_only_to_who_asks_for_it(photographer, made):
    ledger.spoil(plate_id=made[3].pk, reason=SpoiltReason.MOVED, note="", operator=None, now=NOW)
    wrong = a_wrong_press(made[3])

    assert wrong.number not in found(photographer)
    assert found(photographer, number=wrong.number) == [wrong.number]
    assert found(photographer, reason="mistake") == [wrong.number]


def test_spoilage_counts_every_plate_that_was_poured_and_no_wrong_press(photographer, made):
    ledger.spoil(plate_id=made[3].pk, reason=SpoiltReason.MOVED, note="", operator=None, now=NOW)
    a_wrong_press(made[3])

    spoilage = photographer.get(PLATES, {"stage": "ready"}).context["spoilage"]

    # Two of four were given up, counted by hand; that only ready ones are listed does not matter.
    assert spoilage.summary == "2 of 4 plates were given up: 50 %."
    assert [(bar.reason, bar.count) for bar in spoilage.bars] == [("Fogged", 1), ("The sitter moved", 1)]


def test_the_picture_has_a_table_beside_it(photographer, made):
    shown = photographer.get(PLATES).content.decode()

    assert "1 of 4 plates was given up: 25 %." in shown
    assert '<th scope="row">Fogged</th><td>1</td><td class="text-nowrap">25 %</td>' in shown


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ({"number": "abc"}, "Plate number: write a whole number."),
        ({"number": "9" * 40}, "less than or equal to 2147483647"),
        ({"size": "9" * 5000}, "Select a valid choice."),
        ({"stage": "burnt"}, "Select a valid choice."),
        ({"reason": "burnt"}, "Select a valid choice."),
        ({"since": "2026-02-30"}, "Days from: choose a date, for example 2026-11-28."),
        ({"since": "2026-12-02", "until": "2026-12-01"}, "These days end before they begin."),
        ({"batch": "a\0b"}, "Null characters are not allowed."),
    ],
)
@pytest.mark.parametrize("page", [PLATES, EXPORT])
def test_what_cannot_be_looked_for_is_said_and_kept_as_it_was_typed(
    photographer, made, page, asked, sentence
):
    response = photographer.get(page, asked | {"bath": "Bath two"})

    shown = response.content.decode()
    assert response.status_code == 400
    assert sentence in shown
    assert 'value="Bath two"' in shown
    assert "page" not in response.context or not response.context.get("page")


@pytest.mark.parametrize("page", ["2", "-1", "x", "9" * 5000])
def test_a_page_that_is_not_there_shows_one_that_is(photographer, made, page):
    assert found(photographer, page=page) == [4, 3, 2, 1]


def test_a_long_ledger_is_cut_into_pages_that_keep_what_was_looked_for(photographer, made, monkeypatch):
    monkeypatch.setattr("plates.ledger.views.ledger.ON_A_PAGE", 2)

    shown = photographer.get(PLATES, {"until": "2026-11-28"}).content.decode()

    assert 'href="?until=2026-11-28&amp;page=2" rel="next"' in shown
    assert found(photographer, until="2026-11-28", page=2) == [1]


def test_the_file_holds_what_is_known_of_each_plate(photographer, made):
    response = photographer.get(EXPORT, {"number": "1"})

    assert response["Content-Type"] == "text/csv; charset=utf-8; header=present"
    assert response["Content-Disposition"] == 'attachment; filename="plates.csv"'
    [row] = csv.DictReader(io.StringIO(b"".join(response.streaming_content).decode(), newline=""))
    assert row == {
        "number": "1", "size": "quarter", "width_mm": "82.550", "height_mm": "107.950", "day": "2026-11-28",
        "poured_at": "2026-11-20T09:00:00Z", "stage": "ready", "stage_at": "2026-11-20T09:00:00Z",
        "spoilt_reason": "", "batch": "C 14", "bath": "Bath two", "bath_seconds": "", "exposure_seconds": "4.500",
        "lens": "'=cmd", "developer_seconds": "", "notes": "a\r\nb", "picture": "no",
        "facts_changed_at": "2026-11-20T09:00:00Z",
    }  # fmt: skip


def test_neither_page_nor_file_names_a_client_or_an_order(photographer, made):
    references = list(Order.objects.values_list("reference", flat=True))
    shown = photographer.get(PLATES).content.decode()
    written = b"".join(photographer.get(EXPORT).streaming_content).decode()

    assert len(references) == 2
    assert [fact for fact in [*PERSON.values(), "Madrugada", *references] if fact in shown + written] == []


def queries(client, address):
    client.get(address)
    with CaptureQueriesContext(connection) as asked:
        response = client.get(address)
        b"".join(response.streaming_content if response.streaming else [response.content])
    return len(asked)


def test_a_long_ledger_is_asked_for_as_often_as_a_short_one(photographer, made):
    few = [queries(photographer, page) for page in (PLATES, EXPORT)]
    for hour in (10, 12, 14):
        order = builders.a_paid_order(
            builders.a_day(on=date(2026, 12, 12 + hour)), at=time(hour), sizes=["quarter"] * 3
        )
        for plate in builders.made_plates(order):
            facts.note(plate_id=plate.pk, noted=Noted(batch="C 16"), operator=None, now=NOW)

    many = [queries(photographer, page) for page in (PLATES, EXPORT)]

    assert many == few
    assert few[0] <= 8  # fifteen at most is the bar of quality-bars s.3.3


def test_what_is_not_found_is_said_with_a_way_back(photographer, made):
    shown = photographer.get(PLATES, {"number": "99"}).content.decode()

    assert "No plate is like that." in shown
    assert f'<a href="{PLATES}">Show all plates</a>' in shown
