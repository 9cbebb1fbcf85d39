"""Plates into hands: to the client, or to whom the client has named, against the code; each kept for good."""

from collections.abc import Sequence
from datetime import datetime
from uuid import UUID, uuid5

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.translation import gettext as _

from bookings.common.codes import plain_code
from bookings.common.formats import amount
from bookings.errors import BalanceOwed, HandoverRefused
from bookings.handover.models import HandedPlate, HandedTo, Handover, NamedPerson, Parcel, Receipt
from bookings.handover.selectors.desk import may_name, named_person, ready_plates
from bookings.orders.models import Client, Order
from bookings.orders.selectors.account import account
from plates.bench.models import Plate, Stage
from plates.ledger.services import events as ledger


@transaction.atomic
def hand_over(
    *,
    order_id: int,
    to: HandedTo,
    code: str,
    signed: str,
    note: str,
    press: UUID,
    operator: User | None,
    now: datetime,
) -> Handover:
    """Hand every ready plate of an order to the client or to the person named; the same press twice does it once.

    `signed` is the name that was typed as a signature. BalanceOwed while money is owed; HandoverRefused for a wrong
    code, for a named person without it, for a client without it unless a note says how they are known, for nobody's
    signature nor note, and where no plate is ready.
    """
    order = locked_order(order_id=order_id)
    if done := Handover.objects.filter(press=press).first():
        return done
    by_code = _read(order, code)
    _refuse_unknown(order, to, by_code=by_code, signed=signed, note=note)
    return record(
        order=order,
        plates=collectable(order=order),
        to=to,
        by_code=by_code,
        receipt=Receipt(signed=signed, note=note),
        press=press,
        operator=operator,
        now=now,
    )


def record(
    *,
    order: Order,
    plates: Sequence[Plate],
    to: HandedTo,
    by_code: bool,
    receipt: Receipt,
    press: UUID,
    operator: User | None,
    now: datetime,
) -> Handover:
    """Bring plates of a locked order out of the house, and keep to whom; within the caller's transaction."""
    handover = Handover.objects.create(
        order=order, to=to, by_code=by_code, at=now, operator=operator, press=press
    )
    for plate in plates:
        key = uuid5(press, str(plate.pk))
        ledger.record_stage(plate_id=plate.pk, stage=Stage.HANDED_OVER, operator=operator, now=now, press=key)
        HandedPlate.objects.create(handover=handover, event=plate.events.get(press=key))
    receipt.handover = handover
    receipt.save(force_insert=True)
    return handover


@transaction.atomic
def name_person(*, order_id: int, name: str, now: datetime) -> NamedPerson:
    """Let somebody else collect the plates, in place of whoever was named before. HandoverRefused once all are gone."""
    order = locked_order(order_id=order_id)
    if not may_name(order):
        raise HandoverRefused(
            _("No plate of yours waits at the studio any more, so nobody else can be named.")
        )
    standing = named_person(order)
    if standing is not None and standing.name == name:
        return standing
    remove_named_person(order_id=order_id, now=now)
    return NamedPerson.objects.create(order=order, name=name, named_at=now)


@transaction.atomic
def remove_named_person(*, order_id: int, now: datetime) -> None:
    """From now on only the client collects; safe twice."""
    locked_order(order_id=order_id)
    NamedPerson.objects.filter(order_id=order_id, taken_back_at=None).update(taken_back_at=now)


def forget(*, client: Client) -> None:
    """Forget the names and notes of a client's handovers, within the caller's transaction; that there was one stays."""
    NamedPerson.objects.filter(order__client=client).delete()
    Receipt.objects.filter(handover__order__client=client).update(signed="", note="")
    Parcel.objects.filter(handover__order__client=client).update(number="")


def locked_order(*, order_id: int) -> Order:
    """The order, locked so that no refund slips in between a look at its account and the handing over."""
    return Order.objects.select_related("terms", "sitting__bench_job").locked(order_id)


def collectable(*, order: Order) -> list[Plate]:
    """The plates of a locked order that may leave the house. BalanceOwed; HandoverRefused where none is ready."""
    refuse_while_owed(order=order)
    plates = ready_plates(order)
    if not plates:
        raise HandoverRefused(
            _("No plate of order {reference} is ready. Finish it first.").format(reference=order.reference)
        )
    return plates


def refuse_while_owed(*, order: Order) -> None:
    """BalanceOwed while money is owed for a locked order."""
    owed = account(order)
    if not owed.settled:
        raise BalanceOwed(
            _(
                "{owed} is still owed on order {reference}. Record the payment first, then hand the plate over."
            ).format(owed=amount(owed.owed, owed.currency), reference=order.reference)
        )


def _read(order: Order, code: str) -> bool:
    """Whether the code was shown; HandoverRefused for another one."""
    if not code:
        return False
    if plain_code(code) != order.pickup_code:
        raise HandoverRefused(
            _("That is not the code of order {reference}, so nothing was handed over.").format(
                reference=order.reference
            )
        )
    return True


def _refuse_unknown(order: Order, to: HandedTo, *, by_code: bool, signed: str, note: str) -> None:
    if to == HandedTo.POST:
        raise HandoverRefused(_("Plates go to the post with a carrier and a number."))
    if to == HandedTo.NAMED and named_person(order) is None:
        raise HandoverRefused(_("The client has named nobody. Only the client can collect these plates."))
    if to == HandedTo.NAMED and not by_code:
        raise HandoverRefused(_("Ask for the code: without it plates are given to the client only."))
    if not by_code and not note:
        raise HandoverRefused(_("Ask for the code, or note how you know that this is the client."))
    if not signed and not note:
        raise HandoverRefused(_("Type the name of who signs for the plates, or a note."))
