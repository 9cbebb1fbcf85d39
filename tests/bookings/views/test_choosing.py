"""From the wish to a held time, as a visitor's browser sends it."""

from uuid import uuid4

import pytest
from django.urls import reverse

from bookings import links
from bookings.models import Extra, Order, SittingDay
from plates.models import BenchJob, PlateSize
from tests import builders
from tests.bookings.views.reading import Page
from tests.builders import NOW

pytestmark = pytest.mark.django_db

TEN = "2026-11-28T10:00:00+00:00"
BETWEEN = "Choose between one and 6 plates for a sitting."
WHOLE = "quarter plate: write a whole number from 0 to 6."
NO_START = "Choose one of the start times shown."
GONE = "Something that you chose is no longer for sale. Look through the plates again."
NOT_UUID = "Enter a valid UUID."

WRONG_NUMBERS = {
    "blank": ("", BETWEEN),
    "none": ("0", BETWEEN),
    "negative": ("-1", WHOLE),
    "more than six": ("7", WHOLE),
    "a word": ("one", WHOLE),
    "half a plate": ("0.5", WHOLE),
    "huge": ("9" * 400, WHOLE),
    "too long for a number": ("9" * 5000, WHOLE),
    "with a NUL": ("1\0", WHOLE),
}
WRONG_STARTS = {
    "a word": "tomorrow",
    "blank": "",
    "only a day": "{day}",
    "without an offset": "{day} 2026-11-28T10:00:00",
    "no such date": "{day} 2026-11-31T10:00:00+00:00",
    "with a NUL": "{day} 2026-11-28T10:00:00+00:00\0",
    "a day of letters": "saturday 2026-11-28T10:00:00+00:00",
    "a day beyond every id": "99999999999999999999 2026-11-28T10:00:00+00:00",
    "a negative day": "-1 2026-11-28T10:00:00+00:00",
    "longer than any start": "{day} 2026-11-28T10:00:00+00:00" + " " * 60 + "x",
    "the last minute there is": "{day} 9999-12-31T23:59:00+00:00",
    "beyond the last minute there is": "{day} 9999-12-31T23:59:00-23:59",
}


def wished(**changes):
    """What the times page sends for one quarter plate; None takes a field away."""
    sent = {f"size_{PlateSize.objects.get(name='quarter').pk}": "1", "submission_key": str(uuid4())} | changes
    return {name: value for name, value in sent.items() if value is not None}


def hold(client, **changes):
    return client.post(reverse("hold"), wished(**changes))


def held_by(response):
    """The order that a visitor was led to."""
    assert response.status_code == 302
    return links.read_checkout(response.url.split("/")[2])


@pytest.mark.parametrize(("typed", "sentence"), WRONG_NUMBERS.values(), ids=WRONG_NUMBERS)
def test_a_number_that_cannot_be_is_said_beside_what_was_typed(client, day, typed, sentence):
    field = f"size_{PlateSize.objects.get(name='quarter').pk}"

    response = client.get(reverse("times"), {field: typed})

    page = Page(response)
    assert response.status_code == 400
    assert page.errors == [sentence]
    assert page.fields[field] == typed


def test_seven_plates_of_two_sizes_are_refused_and_both_numbers_kept(client, day):
    quarter, half = (PlateSize.objects.get(name=name).pk for name in ("quarter", "half"))

    response = client.get(reverse("times"), {f"size_{quarter}": "4", f"size_{half}": "3"})

    page = Page(response)
    assert (response.status_code, page.errors) == (400, [BETWEEN])
    assert (page.fields[f"size_{quarter}"], page.fields[f"size_{half}"]) == ("4", "3")


@pytest.mark.parametrize("path", ["times", "hold"])
@pytest.mark.parametrize("gone", ["extra_9999", "size_9999"])
def test_a_choice_that_is_no_longer_sold_is_said_and_never_left_out_in_silence(client, day, path, gone):
    wish = wished(start=f"{day.pk} {TEN}", **{gone: "1"})

    response = client.get(reverse(path), wish) if path == "times" else client.post(reverse(path), wish)

    assert (response.status_code, Page(response).errors) == (400, [GONE])
    assert not Order.objects.exists()


def test_a_withdrawn_extra_does_not_stand_in_the_way_of_those_who_did_not_choose_it(client, day):
    case = builders.an_extra()
    Extra.objects.update(offered=False)

    response = client.get(reverse("times"), wished(**{f"extra_{case.pk}": "0"}))

    assert response.status_code == 200


@pytest.mark.parametrize(("typed", "sentence"), WRONG_NUMBERS.values(), ids=WRONG_NUMBERS)
def test_a_wrong_number_sent_with_a_start_holds_nothing(client, day, typed, sentence):
    field = f"size_{PlateSize.objects.get(name='quarter').pk}"

    response = hold(client, start=f"{day.pk} {TEN}", **{field: typed})

    page = Page(response)
    assert (response.status_code, page.errors) == (400, [sentence])
    assert page.fields[field] == typed
    assert not Order.objects.exists()


@pytest.mark.parametrize("start", WRONG_STARTS.values(), ids=WRONG_STARTS)
def test_a_start_that_no_button_sends_is_refused_and_the_wish_kept(client, day, start):
    response = hold(client, start=start.format(day=day.pk))

    page = Page(response)
    assert (response.status_code, page.errors) == (400, [NO_START])
    assert page.fields[f"size_{PlateSize.objects.get(name='quarter').pk}"] == "1"
    assert not Order.objects.exists()


@pytest.mark.parametrize("key", [None, "", "not-a-key", "\0"])
def test_without_a_submission_key_nothing_is_held(client, day, key):
    response = hold(client, start=f"{day.pk} {TEN}", submission_key=key)

    assert (response.status_code, Page(response).errors) == (400, [NO_START])
    assert not Order.objects.exists()


def test_a_day_that_is_not_kept_is_refused_with_the_other_times(client, day):
    response = hold(client, start=f"{day.pk + 1} {TEN}")

    page = Page(response)
    assert response.status_code == 409
    assert "That day is no longer kept. Choose another one." in page.text
    assert f"{day.pk} {TEN}" in page.buttons


def test_a_day_that_is_not_open_is_refused(client, day):
    SittingDay.objects.update(published=False)

    response = hold(client, start=f"{day.pk} {TEN}")

    assert response.status_code == 409
    assert "This day is not open for booking. Choose another one." in Page(response).text


@pytest.mark.parametrize(
    ("start", "sentence"),
    [
        ("2026-11-28T10:00:30+00:00", "A sitting starts on a whole minute."),
        ("2026-11-20T08:59:00+00:00", "That start time has passed. Choose a later one."),
        ("0001-01-01T00:00:00+23:59", "That start time has passed. Choose a later one."),
        ("2026-11-28T10:07:00+00:00", "No sitting starts at 10:07."),
        ("2026-11-28T09:45:00+00:00", "The studio opens at 10:00."),
        ("2026-11-28T17:45:00+00:00", "and the studio closes at 18:00."),
        ("2126-11-28T10:00:00+00:00", "and the studio closes at 18:00."),
    ],
)
def test_a_start_that_cannot_be_is_refused_with_the_reason_and_the_other_times(client, day, start, sentence):
    response = hold(client, start=f"{day.pk} {start}")

    page = Page(response)
    assert response.status_code == 409
    assert sentence in page.text
    assert f"{day.pk} {TEN}" in page.buttons
    assert not Order.objects.exists()


def test_a_taken_start_is_said_on_the_clock_of_the_venue(client, day):
    """Azores: one hour behind UTC in winter (tz database, Atlantic/Azores)."""
    islands = builders.a_day(
        zone="Atlantic/Azores", bench=builders.a_bench(name="Island bench", sitters_at_once=1)
    )
    eleven_utc = "2026-11-28T11:00:00+00:00"
    builders.a_paid_order(islands)

    response = hold(client, start=f"{islands.pk} {eleven_utc}")

    assert response.status_code == 409
    assert "hands are taken from 10:" in Page(response).text


def test_the_same_form_sent_twice_is_one_order_and_both_answers_lead_to_its_page(client, day, clock):
    wish = wished(start=f"{day.pk} {TEN}")
    first = client.post(reverse("hold"), wish)
    clock.shift(2)

    second = client.post(reverse("hold"), wish)

    assert Order.objects.count() == 1
    assert held_by(first) == held_by(second)
    assert client.get(second.url).status_code == 200


def test_the_same_key_with_another_wish_is_refused_with_a_sentence(client, day):
    wish = wished(start=f"{day.pk} {TEN}")
    client.post(reverse("hold"), wish)

    response = client.post(reverse("hold"), wish | {"start": f"{day.pk} 2026-11-28T14:00:00+00:00"})

    assert response.status_code == 409
    assert "This form was already sent with another wish." in Page(response).text
    assert Order.objects.count() == 1


def test_holding_another_time_gives_the_first_one_back(client, day):
    first = held_by(hold(client, start=f"{day.pk} {TEN}"))

    second = held_by(hold(client, start=f"{day.pk} 2026-11-28T14:00:00+00:00"))

    assert first != second
    assert list(BenchJob.objects.promised(NOW)) == [second.sitting.bench_job]


def test_the_page_of_a_time_that_was_given_back_says_so(client, day):
    first = hold(client, start=f"{day.pk} {TEN}")
    hold(client, start=f"{day.pk} 2026-11-28T14:00:00+00:00")

    response = client.get(first.url)

    assert response.status_code == 410
    assert "This time was given back. Choose a new one on the first page." in Page(response).text


def test_another_visitor_takes_no_place_from_the_first(client, day):
    first = held_by(hold(client, start=f"{day.pk} {TEN}"))
    client.cookies.clear()

    second = held_by(hold(client, start=f"{day.pk} 2026-11-28T14:00:00+00:00"))

    assert list(BenchJob.objects.promised(NOW)) == [first.sitting.bench_job, second.sitting.bench_job]


def test_a_visitor_who_goes_back_is_given_a_new_key_and_not_the_kept_page(client, day):
    response = client.get(reverse("times"), wished())

    assert "no-store" in response.headers["Cache-Control"]


def test_before_the_studio_is_set_up_the_first_page_says_what_is_missing(client):
    response = client.get(reverse("home"))

    assert response.status_code == 200
    assert "No sitting day is open at the moment." in Page(response).text
