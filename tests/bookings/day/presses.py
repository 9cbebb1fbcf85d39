"""What may be pressed, marked, sold and let pass on a day at the bench, for Hypothesis to choose from."""

from datetime import time, timedelta
from uuid import uuid4

from django.db import transaction
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule

from bookings.checkout.services import booking
from bookings.day.services import attendance as arrivals
from bookings.day.services import lateness
from bookings.errors import BookingsError
from bookings.handover.services import pickup
from bookings.orders.models import Order, Sitting
from bookings.orders.selectors.account import account
from bookings.orders.services import placing
from bookings.payments.models import Method
from bookings.payments.services import ledger as payments
from bookings.walkups.models import LinePlace
from bookings.walkups.services import line
from bookings.walkups.services.orders import come
from plates.bench.models import Plate, PlateEvent, PlateSlot, SpoiltReason, Stage
from plates.bench.stages import NEXT_STAGE
from plates.errors import PlatesError
from plates.ledger.services import events as ledger
from plates.ledger.services import undo
from plates.tent import services as tent
from plates.tent.selectors.plates import STEPS
from tests import builders

DETAILS = placing.Details(name="Ines Madrugada", email="ines@example.org", phone="", consents={})
MINUTE = timedelta(minutes=1)
WHICH = st.integers(0, 7)  # of what there is, counted round
STAGES = st.sampled_from(Stage.values)
REASONS = st.sampled_from(SpoiltReason.values)


def a_short_day(hands, wash, on):
    """Three sittings, four plates and a line, on a bench with little room in the wash."""
    bench = builders.a_bench(
        name=f"{hands} at work",
        operators=hands,
        tank_places=hands,
        wash_places=wash,
        sitters_at_once=hands,
    )
    day = builders.a_day(on=on, bench=bench, closes=time(13), racks_empty_by=time(14, 15))
    for at, sizes in ((time(10), ["quarter"] * 2), (time(11), ["whole"]), (time(11, 45), ["quarter"])):
        builders.a_paid_order(day, at=at, sizes=sizes)
    return line.open_or_close(day_id=day.pk, keeps=True)


class Presses(RuleBasedStateMachine):
    """A day on which some plates are under way already. The rows of an example are taken back with it."""

    def __init__(self, days):
        super().__init__()
        self.days = days

    @initialize(
        place=st.integers(0, 1), begun=st.lists(st.tuples(WHICH, st.integers(1, 9)), min_size=1, max_size=3)
    )
    def open(self, place, begun):
        self.undone = transaction.atomic()
        self.undone.__enter__()
        self.day = self.days[place]
        self.now = self.day.bench_day.opens_at + 4 * MINUTE
        self.refusals = []
        for which, presses in begun:
            self.work(which, presses, 2)

    def teardown(self):
        if hasattr(self, "undone"):
            transaction.set_rollback(True)
            self.undone.__exit__(None, None, None)

    def attempt(self, act, **how):
        """Do it now; nothing may go wrong but what is refused in words."""
        try:
            with transaction.atomic():
                return act(now=self.now, **how)
        except (PlatesError, BookingsError) as refusal:
            self.refusals.append(str(refusal))
            return None

    def one_of(self, rows, which):
        """One of the rows, None where there are none."""
        found = list(rows)
        return found[which % len(found)] if found else None

    def slot(self, which):
        return self.one_of(PlateSlot.objects.filter(job__day=self.day.bench_day).order_by("pk"), which)

    def newest(self, which):
        return Plate.objects.filter(slot=self.slot(which)).order_by("number").last()

    @rule(which=WHICH, presses=st.integers(1, 9), apart=st.sampled_from([1, 2, 3, 3, 20]))
    def work(self, which, presses, apart):
        """Bring one plate on by some presses, so many minutes after each other."""
        for _ in range(presses):
            plate = self.newest(which)
            following = NEXT_STAGE.get(plate.stage) if plate else None
            if following is None:
                self.attempt(ledger.pour, slot_id=self.slot(which).pk, operator=None)
            else:
                self.attempt(pickup.move_on, plate_id=plate.pk, stage=following, operator=None)
            self.now += apart * MINUTE

    @rule(which=WHICH, stage=STAGES)
    def press_anything(self, which, stage):
        if plate := self.newest(which):
            self.attempt(pickup.move_on, plate_id=plate.pk, stage=stage, operator=None)

    @rule(which=WHICH, reason=REASONS)
    def spoil(self, which, reason):
        if plate := self.newest(which):
            self.attempt(lateness.spoil, plate_id=plate.pk, reason=reason, note="", operator=None)

    @rule(which=WHICH, seconds=st.sampled_from([0, 5, 30, 31]))
    def take_back(self, which, seconds):
        self.now += timedelta(seconds=seconds)
        if plate := self.newest(which):
            self.attempt(undo.undo_press, plate_id=plate.pk, operator=None)

    @rule(which=WHICH, spoil=st.booleans())
    def slip(self, which, spoil):
        """What is taken back at once leaves a plate as it was."""
        before = self.newest(which)
        if before is None or before.stage in (Stage.SPOILT, Stage.HANDED_OVER):
            return
        self.spoil(which, SpoiltReason.FOGGED) if spoil else self.work(which, 1, 0)
        if self.newest(which).stage != before.stage:
            self.attempt(undo.undo_press, plate_id=before.pk, operator=None)
        after = self.newest(which)
        assert (after.pk, after.stage, after.stage_at) == (before.pk, before.stage, before.stage_at)

    @rule(
        which=WHICH,
        kind=st.sampled_from(["pour", "stage", "spoil", "undo"]),
        stage=st.sampled_from([stage for stage, _ in STEPS.values()]),
        ago=st.sampled_from([0, 0, 20, 240]),
    )
    def press_in_the_tent(self, which, kind, stage, ago):
        """Sent late and sent twice, it is entered once."""
        plate = self.newest(which)
        kind = kind if plate else "pour"
        asked = tent.TentPress(
            press=uuid4(),
            kind=kind,
            slot=self.slot(which).pk,
            plate=plate.number if plate else None,
            pour=None,
            stage=STEPS[plate.stage][0] if plate and plate.stage in STEPS else stage,
            reason=SpoiltReason.MOVED,
            at=self.now - timedelta(seconds=ago),
        )
        for _ in range(2):
            self.attempt(tent.record_press, day_id=self.day.bench_day_id, asked=asked, operator=None)
        assert PlateEvent.objects.filter(press=asked.press).count() <= 1

    @rule(which=WHICH, as_=st.sampled_from(arrivals.Mark.values))
    def mark(self, which, as_):
        sitting = self.one_of(Sitting.objects.filter(day=self.day).order_by("pk"), which)
        self.attempt(arrivals.mark, sitting_id=sitting.pk, as_=as_)

    @rule(which=WHICH)
    def take_mark_back(self, which):
        sitting = self.one_of(Sitting.objects.filter(day=self.day).order_by("pk"), which)
        self.attempt(arrivals.undo_mark, sitting_id=sitting.pk)

    @precondition(lambda self: Sitting.objects.count() < 6)
    @rule(quarters=st.integers(1, 8), pays=st.booleans())
    def sell(self, quarters, pays):
        day = self.day.bench_day
        starts_at = day.instant((day.minute(self.now) // 15 + quarters) * 15)
        how = {"day_id": self.day.pk, "starts_at": starts_at, "wish": booking.Wish([builders.a_size()])}
        if order := self.attempt(booking.hold_sitting, submission_key=uuid4(), **how):
            self.attempt(booking.place_order, order_id=order.pk, details=DETAILS)
            self.pay(order) if pays else None

    @rule(which=WHICH)
    def pay_all(self, which):
        self.pay(self.one_of(Order.objects.filter(placed_at__isnull=False).order_by("pk"), which))

    def pay(self, order):
        if owed := account(order).owed:
            how = {"amount": owed, "method": Method.CASH, "reference": str(uuid4())}
            self.attempt(payments.record, order_id=order.pk, **how)

    @rule(size=st.sampled_from(["quarter", "whole"]))
    def join(self, size):
        how = {"day_id": self.day.pk, "key": uuid4(), "name": "Ines", "size": builders.a_size(size)}
        self.attempt(line.join, at_desk=True, **how)

    @rule(which=WHICH, act=st.sampled_from([line.call, line.strike, line.leave, line.undo_strike, come]))
    def see_to_the_line(self, which, act):
        if place := self.one_of(LinePlace.objects.order_by("pk"), which):
            how = {"details": DETAILS} if act is come else {}
            self.attempt(line.call, place_id=place.pk) if act is come else None
            self.attempt(act, place_id=place.pk, **how)

    @rule(minutes=st.sampled_from([1, 4, 15, 40]))
    def wait(self, minutes):
        self.now += minutes * MINUTE
