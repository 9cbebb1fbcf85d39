"""Set-up of benches and sizes: nothing is saved that would break a promise already made."""

from datetime import time, timedelta

import pytest
import time_machine
from django.contrib.auth.models import User
from django.urls import reverse

from plates.bench.models import BenchJob, PlateSize, PlateSlot
from plates.finishing.models import Finishing
from plates.ledger.services import events as ledger
from plates.store.models import StoreRoom
from tests import builders
from tests.builders import NOW

pytestmark = pytest.mark.django_db

BROKEN = "This would break promises already made."


@pytest.fixture(autouse=True)
def clock():
    with time_machine.travel(NOW, tick=False) as traveller:
        yield traveller


@pytest.fixture
def owner(client):
    """A function that signs the owner in anew, for a session does not last until another day."""
    user = User.objects.create_superuser("owner")

    def signed_in():
        client.force_login(user)
        return client

    return signed_in


def sent(row, **changes):
    """What the set-up page of a row sends: its values as they are, and the changes."""
    values = {field.name: field.value_from_object(row) for field in row._meta.fields if field.editable}
    return {name: value for name, value in (values | changes).items() if value not in (None, False)}


def save(owner, row, **changes):
    """Send a row's page; return what it complains about, nothing when it was saved."""
    page = f"admin:plates_{row._meta.model_name}"
    response = owner().post(reverse(f"{page}_change", args=[row.pk]), sent(row, **changes))
    if response.status_code == 302:
        assert response.url == reverse(f"{page}_changelist")
        return []
    return response.context["adminform"].form.non_field_errors()


@pytest.fixture
def two_washed_together():
    """A wash for two plates, and a sitting of two that are washed at the same time."""
    day = builders.a_day(bench=builders.a_bench(wash_places=2))
    builders.a_paid_order(day, at=time(12), sizes=("quarter", "quarter"))
    return day


def test_a_size_is_not_made_to_take_more_wash_than_its_promised_plates_have(owner, two_washed_together):
    size = builders.a_size("quarter")

    complaints = save(owner, size, wash_places=2)

    assert complaints[0] == BROKEN
    assert complaints[1].startswith("28 Nov 2026: ")
    assert PlateSize.objects.get(pk=size.pk).wash_places == 1


def test_a_size_that_no_promise_needs_is_changed_freely(owner, two_washed_together):
    whole = builders.a_size("whole")

    assert save(owner, whole, wash_places=4) == []
    assert PlateSize.objects.get(pk=whole.pk).wash_places == 4


def test_once_the_day_is_over_its_plates_stand_in_the_way_of_nothing(owner, two_washed_together, clock):
    clock.move_to(two_washed_together.bench_day.closes_at)

    assert save(owner, builders.a_size("quarter"), wash_places=2) == []


def test_a_size_is_not_made_larger_than_the_tank_that_its_plates_are_promised_in(owner):
    bench = builders.a_bench(largest_size=builders.a_size("half"))
    builders.a_paid_order(builders.a_day(bench=bench), sizes=("quarter",))

    complaints = save(owner, builders.a_size("quarter"), width_mm="165.1", height_mm="215.9")

    assert complaints[0] == BROKEN


def test_the_largest_size_of_a_tank_is_not_made_smaller_than_plates_that_are_promised_in_it(owner):
    half = builders.a_size("half")
    builders.a_paid_order(builders.a_day(bench=builders.a_bench(largest_size=half)), sizes=("quarter",))

    complaints = save(owner, half, width_mm="50.8", height_mm="63.5")

    assert complaints[0] == BROKEN


def test_the_largest_size_of_a_tank_may_grow_with_the_plates_of_that_size(owner):
    half = builders.a_size("half")
    builders.a_paid_order(builders.a_day(bench=builders.a_bench(largest_size=half)), sizes=("half",))

    assert save(owner, half, width_mm="110", height_mm="140") == []


def test_a_plate_that_is_to_be_made_again_is_looked_at_in_its_new_size_too(owner, clock):
    half = builders.a_size("half")
    order = builders.a_paid_order(builders.a_day(bench=builders.a_bench(largest_size=half)), sizes=("half",))
    begins = order.sitting.bench_job.starts_at
    plate = ledger.pour(slot_id=PlateSlot.objects.get().pk, operator=None, now=begins)
    ledger.spoil(
        plate_id=plate.pk, reason="fogged", note="", operator=None, now=begins + timedelta(minutes=9)
    )
    clock.move_to(begins + timedelta(minutes=10))

    # A tank for 105 mm would not take a plate of 108 mm; here both are of the size that is corrected.
    assert save(owner, half, width_mm="105") == []
    assert BenchJob.objects.filter(retake_of=plate).count() == 1


def test_a_bench_is_not_left_with_less_wash_than_it_has_promised(owner, two_washed_together):
    complaints = save(owner, two_washed_together.bench_day.bench, wash_places=1)

    assert complaints[0] == BROKEN


def test_a_new_size_is_entered(owner):
    response = owner().post(
        reverse("admin:plates_platesize_add"),
        {"name": "Eighth", "width_mm": "54", "height_mm": "83", "wash_places": "1", "offered": "on"},
    )

    assert response.status_code == 302
    assert PlateSize.objects.get().name == "Eighth"


def set_up_finishing(owner, **changes):
    """Send the page of the finishing as it stands, with the changes; what its form complains about."""
    row = builders.finishing()
    values = {field.name: field.value_from_object(row) for field in row._meta.fields if field.editable}
    answer = owner().post(
        reverse("admin:plates_finishing_change", args=[1]),
        values | {"weekdays": list(row.weekdays)} | changes,
    )
    return answer.context["adminform"].form.errors if answer.status_code == 200 else {}


def test_the_days_of_work_are_ticked_and_kept_in_order(owner):
    assert set_up_finishing(owner, weekdays=["5", "2"]) == {}

    assert Finishing.objects.get().weekdays == "25"


@pytest.mark.parametrize(
    ("wrong", "field", "words"),
    [
        pytest.param({"weekdays": []}, "weekdays", "This field is required.", id="no day of work"),
        pytest.param({"dry_least": 61}, "__all__", "The shortest time cannot be longer", id="out of order"),
        pytest.param({"certainty": 100}, "certainty", "less than or equal to 99", id="too sure"),
    ],
)
def test_a_finishing_by_which_nothing_could_be_promised_is_not_saved(owner, wrong, field, words):
    assert words in str(set_up_finishing(owner, **wrong)[field])


def store_room(owner, **changes):
    """Save the figures of the store room as they usually are, with changes."""
    return owner().post(reverse("admin:plates_storeroom_add"), sent(StoreRoom(pk=1)) | changes)


def test_the_figures_of_the_store_room_are_one_row(owner):
    store_room(owner, weeks_ahead=6)

    assert StoreRoom.objects.get(pk=1).weeks_ahead == 6
    assert owner().get(reverse("admin:plates_storeroom_add")).status_code == 403


def test_cyanide_is_switched_on_by_two_words_and_never_by_one(owner):
    answer = store_room(owner, cyanide_on="on")
    assert "Cyanide stays off until you say so here too." in answer.content.decode()
    assert not StoreRoom.objects.exists()

    store_room(owner, cyanide_on="on", lawful="on")

    assert StoreRoom.objects.get().cyanide_on


def test_figures_that_contradict_each_other_are_refused_in_words(owner):
    answer = store_room(owner, stop_below_mg_l=95_000)

    assert "Stop must not lie above warn, nor warn above the target." in answer.content.decode()
