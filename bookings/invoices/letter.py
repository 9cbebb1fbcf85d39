"""What the letter that carries an invoice or a credit note says of it, and the paper itself."""

import re
from datetime import datetime

from bookings.common import formats
from bookings.invoices.models import DocumentKind, Invoice
from bookings.invoices.paper import invoice_pdf
from bookings.invoices.selectors.status import State, asked_for, status_of
from bookings.studio.models import Studio

# Whatever else a name of a series holds could be a folder, or end the name of the file.
NO_FILE_NAME = re.compile(r"[^\w.-]+")


def context(invoice: Invoice, studio: Studio, now: datetime) -> dict[str, object]:
    """The paper in words, amounts and dates written out; one that is nothing is an empty text."""

    def written(minor: int) -> str:
        return formats.amount(minor, invoice.currency, studio.locale) if minor > 0 else ""

    said: dict[str, object] = {
        "paper": invoice.get_kind_display(),
        "label": invoice.label,
        "asked": formats.amount(asked_for(invoice), invoice.currency, studio.locale),
        "due_on": formats.long_date(invoice.due_on, studio.locale) if invoice.due_on else "",
    }
    if invoice.kind == DocumentKind.CREDIT_NOTE:
        corrected = invoice.corrects.label if invoice.corrects else ""
        return said | {"corrects": corrected, "reason": invoice.reason}
    standing = status_of(invoice, now=now)
    credited = standing.state == State.CREDITED
    return said | {"left": written(standing.left), "credited": credited}


def attachment(invoice: Invoice) -> tuple[str, bytes, str]:
    """Name, content and kind of the paper as it goes with the letter."""
    return file_name(invoice), invoice_pdf(invoice), "application/pdf"


def file_name(invoice: Invoice) -> str:
    """The number as the name of a file, for example INV-2026-0042.pdf."""
    return f"{NO_FILE_NAME.sub('-', invoice.label)}.pdf"
