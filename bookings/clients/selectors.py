"""Everything that is kept about a client, for the client."""

import io
import json
import zipfile
from collections.abc import Iterable
from typing import Any

from django.db.models import Model, QuerySet

from bookings.handover.models import Handover, Parcel
from bookings.invoices.paper import invoice_pdf
from bookings.orders.models import Client, Consent, ConsentPurpose, Order
from bookings.orders.selectors.account import account
from bookings.vouchers.models import Voucher
from bookings.waitlist.selectors import kept_of
from plates.bench.models import Plate
from plates.ledger import selectors as facts

# What is left out of the copy: how the machine finds its own rows, and what it needs to send a letter once.
OURS = frozenset(
    {
        "id",
        "submission_key",
        "message_id",
        "claimed_until",
        "nonce",
        "standing",
        "asked",
        "key",
        "press",
        "seen",
    }
)


def answers(client: Client) -> dict[ConsentPurpose, bool]:
    """The newest answer to each question; one that was never answered is a no."""
    given = dict(client.consents.order_by("id").values_list("purpose", "given"))
    return {purpose: given.get(purpose, False) for purpose in ConsentPurpose}


def same_person(client: Client) -> QuerySet[Client]:
    """Every client row under the same mail address, however it was typed: one is made for each order."""
    rows = Client.objects.filter(pk=client.pk)
    return rows | Client.objects.filter(email__iexact=client.email) if client.email else rows


def plates_of_client(client: Client) -> list[Plate]:
    """Every plate that was poured for a client, spoilt ones too, by number."""
    return _plates(client.orders.all())


def plates_of_order(order: Order) -> list[Plate]:
    """Every plate that was poured for one order, by number."""
    return _plates(Order.objects.filter(pk=order.pk))


def copy_of(client: Client) -> bytes:
    """A ZIP of all that is kept under a client's address: one JSON file, the invoices, the pictures of the plates."""
    kept = io.BytesIO()
    orders = Order.objects.filter(client__in=same_person(client)).order_by("pk")
    plates = _plates(orders)
    with zipfile.ZipFile(kept, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr(
            "kept.json", json.dumps(_words(client, orders, plates), indent=2, ensure_ascii=False, default=str)
        )
        for order in orders:
            for invoice in order.invoices.select_related("series"):
                packed.writestr(f"{invoice.label}.pdf", invoice_pdf(invoice))
        for plate in plates:
            if picture := facts.picture_of(plate=plate):
                packed.writestr(f"plate-{plate.number}.jpg", picture)
    return kept.getvalue()


def _plates(orders: QuerySet[Order]) -> list[Plate]:
    jobs = orders.values("sitting__bench_job")
    return list(Plate.objects.filter(slot__job__in=jobs).select_related("slot__size").order_by("number"))


def _words(client: Client, orders: QuerySet[Order], plates: list[Plate]) -> dict[str, Any]:
    same = same_person(client).order_by("pk")
    return {
        "client": _row(client),
        "before": _rows(same.exclude(pk=client.pk)),
        "answers": _rows(Consent.objects.filter(client__in=same)),
        "waiting": _rows(kept_of([client.email])),
        "vouchers": _rows(Voucher.objects.filter(buyer_email__iexact=client.email).order_by("pk")),
        "orders": [_order(order) for order in orders],
        "plates": [
            {"number": plate.number, "size": plate.slot.size.name, "stage": plate.get_stage_display()}
            for plate in plates
        ],
    }


def _order(order: Order) -> dict[str, Any]:
    sitting, owing = order.sitting, account(order)
    return {
        **_row(order),
        "terms": order.terms.version,
        "sitting": {
            "venue": sitting.day.venue.name,
            "starts_at": sitting.day.local(sitting.bench_job.starts_at).isoformat(),
            "arrived_at": sitting.arrived_at,
            "absent_at": sitting.absent_at,
            "sat_at": sitting.sat_at,
        },
        "lines": _rows(order.lines.all()),
        "payments": _rows(order.payments.all()),
        "price": owing.gross,
        "paid": owing.paid,
        "letters": _rows(order.notices.all()),
        "invoices": _rows(order.invoices.all()),
        "named_to_collect": _rows(order.named_people.all()),
        "handovers": [_handover(handover) for handover in order.handovers.select_related("receipt")],
    }


def _handover(handover: Handover) -> dict[str, Any]:
    parcels = Parcel.objects.filter(handover=handover)
    return {**_row(handover), "receipt": _row(handover.receipt), "parcels": _rows(parcels)}


def _rows(rows: Iterable[Model]) -> list[dict[str, Any]]:
    return [_row(row) for row in rows]


def _row(row: Model) -> dict[str, Any]:
    """The columns of a row by name; what points at another row is left to where that row is told."""
    return {
        field.name: getattr(row, field.name)
        for field in row._meta.concrete_fields
        if field.remote_field is None and field.name not in OURS
    }
