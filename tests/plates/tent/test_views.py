"""The dark tent as a telephone asks for it, with scripts."""

import json
from datetime import timedelta
from uuid import uuid4

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from bookings.diary.models import SittingDay
from plates.bench.models import BenchJob, Plate, PlateEvent
from plates.ledger.services import events as ledger
from tests import builders
from tests.builders import NOW
from tests.plates.tent.pages import KEY, address, sent

pytestmark = pytest.mark.django_db


def test_the_page_shows_the_plate_and_its_one_step_and_no_name(photographer, slot):
    shown = photographer.get(address(slot)).content.decode()

    assert '<button class="step">Pour</button>' in shown
    assert "quarter" in shown
    assert "Madrugada" not in shown


def test_a_press_is_answered_with_the_whole_state(photographer, slot):
    answer = sent(photographer, slot, kind="pour")

    told = answer.json()
    assert (answer.status_code, told["refusal"]) == (200, "")
    assert told["plates"][0]["number"] == Plate.objects.get().number
    assert told["plates"][0]["events"] == [["poured", int(NOW.timestamp() * 1000)]]


def test_the_operator_who_pressed_is_kept(photographer, slot):
    sent(photographer, slot, kind="pour")

    assert PlateEvent.objects.get().operator == User.objects.get()


def test_the_same_press_twice_is_one_plate(photographer, slot):
    key = str(uuid4())

    answers = [sent(photographer, slot, kind="pour", press=key) for _ in range(2)]

    assert [answer.status_code for answer in answers] == [200, 200]
    assert PlateEvent.objects.count() == 1


def test_a_refusal_is_a_sentence_with_the_state_beside_it(photographer, slot):
    plate = builders.made_plate(slot, "poured", NOW)

    answer = sent(photographer, slot, kind="stage", stage="exposed", plate=plate.number)

    assert answer.status_code == 409
    assert answer.json()["refusal"] == "Plate 1 is poured; the next stage is sensitised, not exposed."
    assert answer.json()["plates"][0]["number"] == plate.number


@pytest.mark.parametrize("stage", ["varnished", "ready", "handed_over", "spoilt", "nonsense"])
def test_what_belongs_into_the_light_is_not_pressed_in_the_tent(photographer, slot, stage):
    """Handing over above all: money may be owed, of which the tent knows nothing."""
    plate = builders.made_plate(slot, "ready", NOW)

    answer = sent(photographer, slot, kind="stage", stage=stage, plate=plate.number)

    assert answer.status_code == 400
    assert Plate.objects.get().stage == "ready"


@pytest.mark.parametrize(
    "body",
    [
        " ",
        "nonsense",
        "[1]",
        "{}",
        '{"press": 1}',
        '{"kind": "stage"}',
        "[" * 1999,
        '"' + "x" * 3000 + '"',
        json.dumps({"press": KEY, "kind": "spoil", "slot": 1, "reason": "mistake"}),
        json.dumps({"press": KEY, "kind": "spoil", "slot": 1}),
        json.dumps({"press": KEY, "kind": "pour", "slot": 10**40, "at": [1]}),
        json.dumps({"press": [1], "kind": {"a": 1}, "slot": "x\u0000", "at": 5}),
    ],
)
def test_what_is_no_press_changes_nothing(photographer, slot, body):
    answer = photographer.post(address(slot, "tent_press"), body, content_type="application/json")

    assert answer.status_code == 400
    assert answer.json()["refusal"] == "That press could not be read, so nothing was changed."
    assert PlateEvent.objects.count() == 0


@pytest.mark.parametrize("number", [10**18, 10**30])
def test_a_number_that_no_row_can_have_is_refused(photographer, slot, number):
    slot.pk = number if number > 10**20 else slot.pk

    answer = sent(photographer, slot, kind="undo", plate=number)

    assert answer.status_code == 409
    assert PlateEvent.objects.count() == 0


def test_without_the_token_of_the_page_nothing_is_pressed(slot):
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(builders.an_operator())

    assert sent(strict, slot, kind="pour").status_code == 403
    assert PlateEvent.objects.count() == 0


def test_the_state_brings_the_token_that_a_press_needs(slot):
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(builders.an_operator())
    token = strict.get(address(slot, "tent_state")).json()["token"]
    body = json.dumps({"press": str(uuid4()), "slot": slot.pk, "kind": "pour", "at": NOW.isoformat()})

    answer = strict.post(
        address(slot, "tent_press"), body, content_type="application/json", headers={"X-CSRFToken": token}
    )

    assert answer.status_code == 200


def test_the_bath_counts_from_the_ledger(photographer, slot, clock):
    ledger.pour(slot_id=slot.pk, operator=None, now=NOW)
    clock.shift(timedelta(minutes=4))

    shown = photographer.get(address(slot)).content.decode()

    # Two minutes to pour and three in the bath at least, the planning minutes of design s.3: one is left.
    assert '<p id="clock-digits" class="digits">1:00</p>' in shown
    assert "Leave it in the bath" in shown


@pytest.mark.parametrize("asked", ["", "x", "-1", "9" * 40, "²"])
def test_a_plate_that_is_not_there_is_not_asked_for(photographer, slot, asked):
    assert photographer.get(address(slot), {"plate": asked}).status_code == 200


def test_the_worker_is_a_script_that_rules_the_tent_only(photographer):
    answer = photographer.get(reverse("plates:tent_worker"))

    assert answer.headers["Content-Type"] == "text/javascript"
    # A worker rules the addresses below its own (Service Workers, "scope"), and may only be started by this policy.
    assert reverse("plates:tent_worker") == "/studio/tent/worker.js"
    assert "script-src 'self'" in answer.headers["Content-Security-Policy"]


@pytest.mark.parametrize("name", ["tent", "tent_state", "tent_press"])
def test_a_day_that_is_not_there_is_not_found(photographer, name):
    target = reverse(f"plates:{name}", args=[999])

    answer = photographer.post(target) if name == "tent_press" else photographer.get(target)

    assert answer.status_code == 404


def test_nobody_else_sees_the_tent(client, slot):
    client.force_login(User.objects.create_user("visitor"))

    assert client.get(address(slot)).url.startswith(reverse("login"))
    assert sent(client, slot, kind="pour").url.startswith(reverse("login"))


def test_the_coin_test_defers_to_safety_sheets(photographer):
    shown = photographer.get(reverse("plates:tent_light")).content.decode()

    assert "coin" in shown
    assert "safety data sheets" in shown


@pytest.mark.parametrize(("asked", "links"), [("7", 1), ("", 0), ("x", 0), ("9" * 30, 0)])
def test_from_the_coin_test_a_link_leads_back(photographer, asked, links):
    shown = photographer.get(reverse("plates:tent_light"), {"day": asked}).content.decode()

    assert shown.count(f'href="{reverse("plates:tent", args=[7])}"') == links


def test_a_plate_spoilt_in_the_tent_works_the_times_of_the_others_out_again(photographer, slot, clock):
    late = slot.job.starts_at + timedelta(minutes=50)
    later = builders.a_paid_order(SittingDay.objects.get(), at=slot.job.starts_at + timedelta(minutes=30))
    clock.move_to(late)
    photographer.force_login(User.objects.get())
    sent(photographer, slot, kind="pour", at=late.isoformat())

    sent(
        photographer,
        slot,
        kind="spoil",
        plate=Plate.objects.get().number,
        reason="fogged",
        at=late.isoformat(),
    )

    assert BenchJob.objects.get(pk=later.sitting.bench_job_id).expected_at > later.sitting.bench_job.starts_at
