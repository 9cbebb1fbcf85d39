"""Whatever is sent about plates, nothing answers with a server error (this client raises what a view raises)."""

import pytest
from django.urls import reverse
from hypothesis import given
from hypothesis import strategies as st

from plates.bench.models import PlateSlot, SpoiltReason, Stage
from tests import builders
from tests.bookings.test_views_any_input import ANYTHING, many, refused_in_words, sent

pytestmark = pytest.mark.django_db

SECONDS = st.integers(-5, 4000).map(str)
DAYS = st.dates().map(str)


@pytest.fixture
def plate():
    order = builders.a_paid_order(builders.a_day())
    return builders.made_plate(PlateSlot.objects.get(job=order.sitting.bench_job), Stage.FIXED, builders.NOW)


@many
@given(
    fields=sent(
        number=st.integers(-1, 2**40).map(str),
        size=st.integers(0, 9).map(str),
        stage=st.sampled_from(Stage.values),
        reason=st.sampled_from(["", *SpoiltReason.values]),
        since=DAYS,
        until=DAYS,
        batch=ANYTHING,
        page=ANYTHING,
    )
)
def test_any_search(photographer, plate, fields):
    refused_in_words(photographer.get(reverse("plates:plates"), fields))
    answer = photographer.get(reverse("plates:export"), fields)
    assert answer.status_code in {200, 400}
    assert b"".join(answer) != b""


@many
@given(
    fields=sent(
        batch=ANYTHING,
        bath_seconds=SECONDS,
        exposure_seconds=st.decimals(-1, 4000).map(str)
        | st.sampled_from(["NaN", "sNaN", "1e400", "-Infinity"]),
        developer_seconds=SECONDS,
        notes=st.text(max_size=2100),
    )
)
def test_any_facts(photographer, plate, fields):
    refused_in_words(photographer.post(reverse("plates:plate", args=[plate.number]), fields))
    refused_in_words(photographer.get(reverse("plates:plate", args=[plate.number])))


@many
@given(fields=sent(picture=ANYTHING, remove=ANYTHING))
def test_any_picture(photographer, plate, fields):
    refused_in_words(photographer.post(reverse("plates:keep_picture", args=[plate.number]), fields))
