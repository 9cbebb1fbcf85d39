"""What a visitor fills in becomes clean values, or a sentence."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.checkout.forms import DetailsForm, HoldForm, WishForm, parse_start
from bookings.orders.models import ConsentPurpose
from bookings.pricing.selectors import price_list
from tests import builders

NO_START = "Choose one of the start times shown."
ZONES = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))


def for_sale(*extras):
    return {"prices": price_list(on=builders.SATURDAY), "extras": list(extras)}


@given(
    day=st.integers(1, 2**31 - 1),
    moment=st.datetimes(timezones=ZONES).filter(lambda moment: moment.year < 3000),
)
def test_what_a_button_of_the_times_page_sends_is_read_back_the_same(day, moment):
    assert parse_start(f"{day} {moment.isoformat()}") == (day, moment)


@given(st.text(max_size=60))
def test_any_other_text_is_refused_with_a_sentence(text):
    with pytest.raises(ValueError, match=NO_START):
        parse_start(text)


def test_a_date_beyond_any_diary_is_refused():
    with pytest.raises(ValueError, match=NO_START):
        parse_start("1 3000-01-01T00:00:00+00:00")


@pytest.mark.django_db
def test_a_wish_lists_each_plate_smallest_size_first_and_only_the_extras_that_were_chosen():
    half, quarter = builders.a_size("half"), builders.a_size("quarter")
    case, post = builders.an_extra(), builders.an_extra("Posted", "post", 1250)
    typed = {
        f"size_{half.pk}": "1",
        f"size_{quarter.pk}": "2",
        f"extra_{case.pk}": "0",
        f"extra_{post.pk}": "1",
    }

    form = WishForm(typed, **for_sale(case, post))

    assert form.is_valid()
    wish = form.cleaned_data["wish"]
    assert (list(wish.sizes), dict(wish.extras)) == ([quarter, quarter, half], {post: 1})


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("counts", "sound"), [((1, 0), True), ((3, 3), True), ((0, 0), False), ((4, 3), False)]
)
def test_a_wish_is_for_one_to_six_plates(counts, sound):
    sizes = [builders.a_size("half"), builders.a_size("quarter")]

    form = WishForm(
        {f"size_{size.pk}": count for size, count in zip(sizes, counts, strict=True)}, **for_sale()
    )

    assert form.is_valid() is sound
    assert form.non_field_errors() == ([] if sound else ["Choose between one and 6 plates for a sitting."])


@pytest.mark.django_db
def test_an_empty_wish_is_not_yet_wrong():
    builders.a_size()

    assert WishForm(**for_sale()).errors == {}


@pytest.mark.django_db
def test_a_hold_knows_the_day_the_instant_and_the_key():
    size = builders.a_size()
    key = "6f0e4a52-3f0c-4f43-9a55-0d1f8f1e7a10"

    form = HoldForm(
        {f"size_{size.pk}": "1", "submission_key": key, "start": "3 2026-11-28T10:00:00+00:00"}, **for_sale()
    )

    assert form.is_valid()
    assert form.cleaned_data["start"] == (3, datetime(2026, 11, 28, 10, tzinfo=UTC))
    assert str(form.cleaned_data["submission_key"]) == key


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("Ines Madrugada", "Ines Madrugada"),
        ("  Ines \t Madrugada\n", "Ines Madrugada"),
        ("Łukasz O’Hara", "Łukasz O’Hara"),
    ],
)
def test_a_name_is_kept_as_it_was_written_with_single_blanks(typed, kept):
    form = DetailsForm({"name": typed, "email": "ines@example.org", "cautions": "on"})

    assert form.is_valid()
    assert form.details().name == kept


def test_what_is_not_ticked_is_not_agreed_to():
    form = DetailsForm({"name": "Ines", "email": "ines@example.org", "cautions": "on", "consent_news": "on"})

    assert form.is_valid()
    assert form.details().consents == {ConsentPurpose.SHOW: False, ConsentPurpose.NEWS: True}


@pytest.mark.parametrize(("name", "token"), [("name", "name"), ("email", "email"), ("phone", "tel")])
def test_a_browser_can_fill_in_what_it_knows(name, token):
    """The tokens are those of HTML, 4.10.18.7 (autofill), which WCAG 2.2, 1.3.5 asks for."""
    assert DetailsForm().fields[name].widget.attrs["autocomplete"] == token
