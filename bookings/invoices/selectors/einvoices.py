"""The frozen rows of an invoice as an electronic one is written from. Nothing here writes rows."""

from babel.numbers import get_currency_precision
from django.utils.translation import gettext as _

from bookings.errors import EInvoiceRefused
from bookings.invoices.einvoice import Document, Line, Party, TaxShare, why_not, write
from bookings.invoices.models import Invoice


def einvoice(invoice: Invoice) -> bytes:
    """The electronic form of an issued document (EN 16931, CII). EInvoiceRefused says why there can be none."""
    document = document_of(invoice)
    if problems := why_not(document):
        raise EInvoiceRefused(
            " ".join([_("{label} has no electronic form.").format(label=invoice.label), *problems])
        )
    return write(document)


def document_of(invoice: Invoice) -> Document:
    """An issued invoice or credit note, from its frozen rows only."""
    seller = _party(invoice.seller, "")
    return Document(
        kind=invoice.kind,
        number=invoice.label,
        issued_on=invoice.issued_on,
        supplied_on=invoice.supplied_on,
        due_on=invoice.due_on,
        currency=invoice.currency,
        places=get_currency_precision(invoice.currency),
        order=invoice.order.reference,
        seller=seller,
        # A sitter who left no address was a guest of the studio.
        buyer=_party(invoice.buyer, seller.country),
        account=invoice.seller.get("account", ""),
        lines=_lines(invoice),
        taxes=_taxes(invoice),
        net=invoice.net,
        tax=invoice.tax,
        total=invoice.total,
        prepaid=invoice.prepaid,
        rounding=invoice.rounding,
        due=invoice.due,
        corrects=(invoice.corrects.label, invoice.corrects.issued_on) if invoice.corrects else None,
        reason=invoice.reason,
    )


def _party(frozen: dict[str, str], country: str) -> Party:
    company = frozen.get("company", "")
    return Party(
        name=company or frozen["name"],
        address=tuple(line.strip() for line in frozen.get("address", "").splitlines() if line.strip()),
        country=(frozen.get("country") or country).upper(),
        tax_number=frozen.get("tax_number", ""),
        email=frozen["email"],
        person=frozen["name"] if company else "",
    )


def _lines(invoice: Invoice) -> tuple[Line, ...]:
    return tuple(
        Line(
            position=line.position,
            text=line.text,
            quantity=line.quantity,
            net=line.net,
            tax_category=line.tax_category,
            rate_bp=line.tax_rate_bp,
        )
        for line in invoice.lines.all()
    )


def _taxes(invoice: Invoice) -> tuple[TaxShare, ...]:
    return tuple(
        TaxShare(
            tax_category=group["category"],
            rate_bp=group["rate_bp"],
            taxable=group["taxable"],
            tax=group["tax"],
            reason=group.get("reason", ""),
        )
        for group in invoice.breakdown
    )
