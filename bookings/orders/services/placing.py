"""Writing an order down: who is coming, its lines, its reference."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Max

from bookings.common import codes
from bookings.orders.models import Client, Consent, ConsentPurpose, Order, OrderLine
from plates.bench.models import BenchJob

# Without 0, O, 1, I and L, so that a reference can be read aloud and typed back.


@dataclass(frozen=True, slots=True)
class Details:
    """Who is coming, and what they answered."""

    name: str
    email: str
    phone: str
    consents: Mapping[ConsentPurpose, bool]


def enter_client(*, details: Details, now: datetime) -> Client:
    """Write down who is coming and what they agreed to."""
    client = Client.objects.create(
        name=details.name, email=details.email, phone=details.phone, created_at=now
    )
    Consent.objects.bulk_create(
        Consent(client=client, purpose=purpose, given=given, wording=str(purpose.label), at=now)
        for purpose, given in details.consents.items()
    )
    return client


def save_lines(*, order: Order, lines: Sequence[OrderLine], job: BenchJob) -> None:
    """Save the lines, each plate line on its own place in the job; `lines_for` puts the plates first."""
    for line, slot in zip(lines, job.slots.order_by("position"), strict=False):
        line.slot = slot
    for line in lines:
        line.order = order
    OrderLine.objects.bulk_create(lines)


def new_reference() -> str:
    """A reference for an order that nobody can guess from another one."""
    return codes.new_code()


def add_line(*, order: Order, line: OrderLine) -> OrderLine:
    """Save a line behind the others of an order, which is locked."""
    line.order = order
    line.position = (order.lines.aggregate(last=Max("position"))["last"] or 0) + 1
    line.save()
    return line
