"""A client's say about what is kept: answers changed, and who it was erased."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from functools import partial

from django.db import connection, transaction
from django.utils.translation import gettext as _

from bookings.access.models import StepUp
from bookings.clients.selectors import answers, plates_of_client, same_person
from bookings.errors import NotErased
from bookings.handover.services import handing_over as handover
from bookings.orders.models import Client, Consent, ConsentPurpose, Order
from bookings.orders.selectors.account import account
from bookings.outbox.files import forget_letters
from bookings.outbox.models import Notice
from bookings.vouchers.services import selling as vouchers
from bookings.waitlist import services as waiting
from plates.bench.models import Stage
from plates.ledger.services import facts


@transaction.atomic
def answer(*, client_id: int, given: Mapping[ConsentPurpose, bool], now: datetime) -> None:
    """Write down what a client now answers; an answer that is the same as before is no new row."""
    client = Client.objects.select_for_update(of=("self",)).get(pk=client_id)
    before = answers(client)
    Consent.objects.bulk_create(
        Consent(client=client, purpose=purpose, given=given[purpose], wording=str(purpose.label), at=now)
        for purpose in ConsentPurpose
        if given[purpose] != before[purpose]
    )


@transaction.atomic
def erase(*, client_id: int, now: datetime) -> Client:
    """Forget everybody who booked under the mail address of a client: names, addresses, answers, pictures. Safe twice.

    With them go places on waiting lists, the names on vouchers that were bought under that address, and letters kept
    as files. Orders, money and plates stay without a person; issued invoices stay as the law wants them, shut away.
    NotErased while a sitting is to come, money is owed or to be given back, or a plate waits to be collected.
    """
    client = Client.objects.select_for_update(of=("self",)).get(pk=client_id)
    if client.erased_at is not None:
        return client
    same = list(same_person(client).select_for_update(of=("self",)).order_by("pk"))
    for order in Order.objects.filter(client__in=same).select_related("sitting__bench_job", "terms"):
        _refuse_open(order, now)
    emails = sorted({each.email for each in same if each.email})
    for each in same:
        _forget(each, now)
    waiting.erase(emails=emails, now=now)
    vouchers.forget_people(emails=emails, now=now)
    transaction.on_commit(partial(_wipe, emails))
    client.refresh_from_db()
    return client


def _forget(client: Client, now: datetime) -> None:
    for plate in plates_of_client(client):
        facts.remove_picture(plate_id=plate.pk, operator=None, now=now)
    handover.forget(client=client)
    client.consents.all().delete()
    StepUp.objects.filter(order__client=client).delete()
    # An error of the mail server may quote the address.
    Notice.objects.filter(order__client=client).update(last_error="")
    Notice.objects.filter(order__client=client, sent_at=None).update(withdrawn_at=now)
    client.name, client.erased_at = "Erased", now
    client.email = client.phone = client.company = client.address = client.country = client.tax_number = ""
    client.save()


def _wipe(emails: Sequence[str]) -> None:
    """Take away what the rows alone do not: letters written to files, and old pages of SQLite's write-ahead log."""
    forget_letters(emails)
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")


def _refuse_open(order: Order, now: datetime) -> None:
    """NotErased while the studio still has something to do with the client of an order."""
    owing, job = account(order), order.sitting.bench_job
    if order.cancelled_at is None and job.starts_at > now:
        raise NotErased(_("A sitting of yours is still to come. Cancel it first, or wait until it is over."))
    if owing.overpaid:
        raise NotErased(_("Money is to be given back to you. Ask again once you have it."))
    if order.cancelled_at is None and owing.owed > 0:
        raise NotErased(_("Something is still to be paid. Ask again once it is settled."))
    made = [slot.plates.exclude(stage=Stage.SPOILT) for slot in job.slots.all()]
    if any(plates.exclude(stage=Stage.HANDED_OVER).exists() for plates in made):
        raise NotErased(_("A plate of yours is still here. Ask again once you have collected it."))
