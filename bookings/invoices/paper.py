"""An issued invoice or credit note on paper: from its frozen rows only, the same bytes however often it is printed."""

from django.utils.translation import gettext as _

from bookings.common import archive, formats
from bookings.common import paper as press
from bookings.common.countries import country_name
from bookings.errors import EInvoiceRefused
from bookings.invoices.models import DocumentKind, Invoice, InvoiceLine
from bookings.invoices.selectors.einvoices import einvoice
from bookings.studio.language import speaking
from bookings.studio.selectors import the_studio


def invoice_pdf(invoice: Invoice) -> bytes:
    """The paper of an issued document, with its electronic form inside wherever it has one."""
    # What was issued before the studio's way of writing was frozen with it is written as the studio does now.
    locale = invoice.seller.get("locale") or the_studio().locale
    with speaking(locale):
        words = _heading(invoice, locale) | _parties(invoice) | _sums(invoice, locale)
        return press.pdf_to_keep(
            "bookings/invoices/papers/invoice.html",
            words | {"lines": [_line(line, invoice.currency, locale) for line in invoice.lines.all()]},
            paper=press.Paper.of(invoice.seller["country"]),
            enclosed=_enclosed(invoice),
        )


def tax_name(category: str, rate_bp: int) -> str:
    """A tax category of EN 16931 with its rate, as a person reads it."""
    names = {"S": formats.percent(rate_bp), "Z": _("zero rate"), "E": _("exempt")}
    return names[category]


def _enclosed(invoice: Invoice) -> archive.Enclosed | None:
    try:
        return archive.Enclosed(einvoice(invoice), invoice.issued_on)
    except EInvoiceRefused:
        return None


def _heading(invoice: Invoice, locale: str) -> dict[str, object]:
    corrected = invoice.corrects
    return {
        "invoice": invoice,
        "kind": invoice.get_kind_display(),
        "credit_note": invoice.kind == DocumentKind.CREDIT_NOTE,
        "issued_on": formats.long_date(invoice.issued_on, locale),
        "supplied_on": formats.long_date(invoice.supplied_on, locale),
        "due_on": formats.long_date(invoice.due_on, locale) if invoice.due_on else "",
        "corrected_on": formats.long_date(corrected.issued_on, locale) if corrected else "",
    }


def _parties(invoice: Invoice) -> dict[str, object]:
    """Who sells and who buys, line by line; the buyer's country only where it is another one."""
    seller, buyer = invoice.seller, invoice.buyer
    country = buyer.get("country", "")
    abroad = country_name(country) if country.upper() != seller["country"].upper() else ""
    names = [buyer.get("company"), buyer["name"], *buyer.get("address", "").splitlines(), abroad]
    return {
        "seller_address": [*str(seller["address"]).splitlines(), country_name(seller["country"])],
        "account": seller.get("account", ""),
        "buyer_lines": [line for line in names if line],
        "buyer_tax_number": buyer.get("tax_number", ""),
    }


def _sums(invoice: Invoice, locale: str) -> dict[str, object]:
    """The sums in words; a rounding of nothing is an empty text."""

    def written(minor: int) -> str:
        return formats.amount(minor, invoice.currency, locale)

    return {
        "net": written(invoice.net),
        "taxes": [
            {
                "name": tax_name(group["category"], group["rate_bp"]),
                "reason": group.get("reason", ""),
                "taxable": written(group["taxable"]),
                "tax": written(group["tax"]),
            }
            for group in invoice.breakdown
        ],
        "tax": written(invoice.tax),
        "total": written(invoice.total),
        "rounding": written(invoice.rounding) if invoice.rounding else "",
        "prepaid": written(invoice.prepaid),
        "owed": invoice.due > 0,
        "due": written(invoice.due),
        "overpaid": written(-invoice.due) if invoice.due < 0 else "",
    }


def _line(line: InvoiceLine, currency: str, locale: str) -> dict[str, object]:
    return {
        "text": line.text,
        "quantity": line.quantity,
        "unit": formats.amount(line.unit_amount, currency, locale),
        "tax": tax_name(line.tax_category, line.tax_rate_bp),
        "net": formats.amount(line.net, currency, locale),
    }
