"""The log of waste, and how long a fixer clears. Written down once, never changed."""

from datetime import date, timedelta

import pytest
from django.db import DatabaseError, IntegrityError, transaction

from plates.errors import StoreRefused
from plates.store.models import ClearingTime, WasteEntry
from plates.store.selectors.safety import waste
from plates.store.services.waste import Disposal, mark_container, note_clearing, set_fire_limit, write_down
from tests.builders import NOW
from tests.builders import store as stores

pytestmark = pytest.mark.django_db

TODAY = NOW.date()


@pytest.fixture
def container():
    return mark_container(label="W 3", kind="silver")


def kept(container, millilitres=500, on=TODAY):
    told = Disposal("kept", millilitres * 1000, on, what="Used fixer")
    return write_down(container_id=container.pk, disposal=told, operator=None, now=NOW)


def test_what_was_kept_less_what_was_collected_is_in_the_container(container):
    kept(container), kept(container, 700)
    told = Disposal("collected", 1_000_000, TODAY, service="Quay Waste Service")
    write_down(container_id=container.pk, disposal=told, operator=None, now=NOW)

    [found] = waste()
    assert found.held_ul == 200_000


def test_a_label_stands_on_one_container_only(container):
    with pytest.raises(StoreRefused, match=r"Another container is called W 3\. Mark this one otherwise\."):
        mark_container(label="W 3", kind="cyanide")


def test_waste_is_not_written_down_before_its_day(container):
    with pytest.raises(StoreRefused, match="on its day or later"):
        kept(container, on=TODAY + timedelta(days=2))


def test_a_date_that_it_is_somewhere_already_is_taken(container):
    # The line islands are fourteen hours before UTC (tz database, Pacific/Kiritimati): there it is the next day by ten.
    at_ten = NOW + timedelta(hours=1)
    told = Disposal("kept", 1_000, TODAY + timedelta(days=1), what="Used fixer")

    assert write_down(container_id=container.pk, disposal=told, operator=None, now=at_ten).pk


@pytest.mark.parametrize(
    "facts",
    [{"kind": "collected", "what": "x"}, {"kind": "kept"}, {"kind": "kept", "what": "x", "amount_ul": 0}],
    ids=["collected by nobody", "kept without what", "nothing"],
)
def test_the_database_refuses_what_says_too_little(container, facts):
    row = {"container": container, "amount_ul": 1, "on": TODAY, "at": NOW} | facts

    with pytest.raises(IntegrityError, match="waste_entry_"), transaction.atomic():
        WasteEntry.objects.create(**row)


def test_the_log_is_never_changed(container):
    entry = kept(container)

    with pytest.raises(DatabaseError, match="append-only"), transaction.atomic():
        WasteEntry.objects.filter(pk=entry.pk).update(amount_ul=1)


def test_a_clearing_time_is_noted_of_a_fixer_in_use_only():
    fixer, bath = stores.a_batch(), stores.a_bath()
    assert note_clearing(batch_id=fixer.pk, seconds=40, operator=None, now=NOW).seconds == 40

    with pytest.raises(StoreRefused, match="Only a fixer that is still in use"):
        note_clearing(batch_id=bath.pk, seconds=40, operator=None, now=NOW)
    with pytest.raises(DatabaseError, match="append-only"), transaction.atomic():
        ClearingTime.objects.update(seconds=1)


def test_the_figure_for_fire_is_the_studios_own():
    assert set_fire_limit(millilitres=5000).fire_limit_ml == 5000
    assert set_fire_limit(millilitres=None).fire_limit_ml is None
    assert date(2026, 11, 20) == TODAY
