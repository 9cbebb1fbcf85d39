"""From the wish to a held time, as a visitor's browser sends it."""

from datetime import date

import pytest
from django.urls import reverse

from bookings.orders.models import Order
from bookings.pricing.models import Extra, SizePrice
from plates.bench.models import PlateSize
from tests import builders
from tests.reading.pages import Page
from tests.reading.wishes import TEN, held_by, hold, wished

pytestmark = pytest.mark.django_db

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


def test_a_visitor_who_goes_back_is_given_a_new_key_and_not_the_kept_page(client, day):
    response = client.get(reverse("times"), wished())

    assert "no-store" in response.headers["Cache-Control"]


def test_where_prices_change_each_day_says_its_own_and_a_day_is_sold_at_what_it_says(client, day):
    later = builders.a_day(on=date(2026, 12, 5), bench=day.bench_day.bench)
    SizePrice.objects.create(
        size=PlateSize.objects.get(name="quarter"),
        amount=9500,
        tax_class=builders.a_tax_class(),
        holds_from=date(2026, 12, 1),
    )

    page = Page(client.get(reverse("times"), wished()))
    order = held_by(hold(client, start=f"{later.pk} 2026-12-05T10:00:00+00:00"))

    assert "Prices change with the day. These are those of Saturday 28 November 2026." in page.text
    assert "On this day your sitting costs €85.00 , of which €42.50 now." in page.text
    assert "On this day your sitting costs €95.00 , of which €47.50 now." in page.text
    assert order.lines.get().unit_amount == 9500


def test_where_all_days_cost_the_same_no_day_says_a_price_of_its_own(client, day):
    builders.a_day(on=date(2026, 12, 5), bench=day.bench_day.bench)

    page = Page(client.get(reverse("times"), wished()))

    assert "On this day your sitting costs" not in page.text
    assert "Prices change with the day." not in page.text


def test_before_the_studio_is_set_up_the_first_page_says_what_is_missing(client):
    response = client.get(reverse("home"))

    assert response.status_code == 200
    assert "No sitting day is open at the moment." in Page(response).text
