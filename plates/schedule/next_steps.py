"""What is to be done next at the bench, and by when. Pure: plans and the stages plates have reached, in minutes."""

from collections.abc import Iterable
from dataclasses import dataclass

from plates.capacity import PlatePlan, Timings

# The stage that a press brings a plate to, in order, as far as the plan of the day reaches.
PLANNED_STAGES = ("poured", "sensitised", "exposed", "developed", "fixed", "washing", "drying")


@dataclass(frozen=True, slots=True)
class Work:
    """One plate of the day: its plan, the stage it has reached (None: not poured) and since which minute.

    `begins` is when it is to be poured where that is not as planned, as for a plate that is made again.
    """

    key: int
    plan: PlatePlan
    stage: str | None = None
    since: float = 0.0
    begins: int | None = None


@dataclass(frozen=True, slots=True)
class NextStep:
    """A press that is due: which plate, to which stage, at which minute, and the latest minute that it can wait for.

    `latest` is None where nothing is lost by waiting but time.
    """

    key: int
    stage: str
    due: float
    latest: float | None


def next_steps(timings: Timings, works: Iterable[Work]) -> list[NextStep]:
    """The next press of each plate that has one, the most pressing first.

    A step follows the one before it by as many minutes as were planned, from when that really was.
    """
    found = (_next_step(timings, work) for work in works)
    return sorted((step for step in found if step), key=lambda step: (step.due, step.key))


def _next_step(timings: Timings, work: Work) -> NextStep | None:
    if work.stage is None:
        return NextStep(work.key, "poured", work.plan.pour if work.begins is None else work.begins, None)
    if work.stage not in PLANNED_STAGES[:-1]:
        return None
    following = PLANNED_STAGES[PLANNED_STAGES.index(work.stage) + 1]
    planned = _pressed(timings, work.plan)
    due = work.since + planned[following] - planned[work.stage]
    return NextStep(work.key, following, due, _latest(timings, work, planned))


def _pressed(timings: Timings, plan: PlatePlan) -> dict[str, int]:
    """When each press is made if all goes as planned: pouring as it begins, all others as the step ends."""
    return {
        "poured": plan.pour,
        "sensitised": plan.tank_out,
        "exposed": plan.expose + timings.expose,
        "developed": plan.develop + timings.develop,
        "fixed": plan.fix + timings.fix,
        "washing": plan.wash_in,
        "drying": plan.lift,
    }


def _latest(timings: Timings, work: Work, planned: dict[str, int]) -> float | None:
    """Bath, wet window and wash do not wait. After the bath a plate must be developed in time, and exposed before."""
    wet_ends = timings.wet_window - timings.develop
    if work.stage == "poured":
        return work.since + timings.pour + timings.sensitise.most
    if work.stage == "sensitised":
        return work.since + wet_ends
    if work.stage == "exposed":
        return work.since + planned["sensitised"] - planned["exposed"] + timings.wet_window
    if work.stage == "washing":
        return work.since + timings.wash.most
    return None
