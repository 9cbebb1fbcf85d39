"""One sitting of two plates alone on a day, planned by hand, and ways to move it."""

from dataclasses import replace

from plates.capacity import Bench, Booked, PlatePlan, Sitting, SittingPlan
from tests.plates.capacity.days import QUARTER

BENCH = Bench(operators=2, tank_places=2)
FIRST = PlatePlan(
    pour=104, tank_in=106, tank_out=110, expose=112, develop=115, fix=118, wash_in=120, lift=200
)
SECOND = PlatePlan(
    pour=125, tank_in=127, tank_out=131, expose=133, develop=136, fix=139, wash_in=141, lift=230
)
PLAN = SittingPlan(settle=100, farewell=143, plates=(FIRST, SECOND))
LONE = Booked(Sitting(100, (QUARTER, QUARTER)), PLAN)


def moved(booked, plate=None, **steps):
    if plate is None:
        return replace(booked, plan=replace(booked.plan, **steps))
    plates = list(booked.plan.plates)
    plates[plate] = replace(plates[plate], **steps)
    return replace(booked, plan=replace(booked.plan, plates=tuple(plates)))


def later(booked, minutes):
    plates = tuple(
        PlatePlan(**{step: getattr(plate, step) + minutes for step in plate.__dataclass_fields__})
        for plate in booked.plan.plates
    )
    plan = SittingPlan(booked.plan.settle + minutes, booked.plan.farewell + minutes, plates)
    return Booked(replace(booked.sitting, start=booked.sitting.start + minutes), plan)
