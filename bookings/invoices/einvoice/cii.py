"""A document as a Cross Industry Invoice, element by element in the order of its schema."""

from lxml.etree import _Element

from bookings.invoices.einvoice import parties
from bookings.invoices.einvoice.elements import element, optional, written
from bookings.invoices.einvoice.figures import amount, day, percent, unit_price
from bookings.invoices.einvoice.values import CREDIT_NOTE, Document, Line, TaxShare

GUIDELINE = "urn:cen.eu:en16931:2017"  # BT-24
ONE = "C62"  # one piece (UN/ECE recommendation 20)
TRANSFER, SEPA_TRANSFER = "30", "58"  # UNTDID 4461


def write(document: Document) -> bytes:
    """The electronic invoice. `why_not` says beforehand whether there can be one."""
    guideline = element("ram:GuidelineSpecifiedDocumentContextParameter", element("ram:ID", GUIDELINE))
    root = element(
        "rsm:CrossIndustryInvoice",
        element("rsm:ExchangedDocumentContext", guideline),
        _head(document),
        element(
            "rsm:SupplyChainTradeTransaction",
            *(_line(line, document.places) for line in document.lines),
            _agreement(document),
            _delivery(document),
            _settlement(document),
        ),
    )
    return written(root)


def _head(document: Document) -> _Element:
    note = element("ram:IncludedNote", element("ram:Content", document.reason)) if document.reason else None
    return element(
        "rsm:ExchangedDocument",
        element("ram:ID", document.number),
        element("ram:TypeCode", document.kind),
        element("ram:IssueDateTime", element("udt:DateTimeString", day(document.issued_on), format="102")),
        note,
    )


def _line(line: Line, places: int) -> _Element:
    price = element("ram:ChargeAmount", unit_price(line.net, line.quantity, places))
    sums = element(
        "ram:SpecifiedTradeSettlementLineMonetarySummation",
        element("ram:LineTotalAmount", amount(line.net, places)),
    )
    return element(
        "ram:IncludedSupplyChainTradeLineItem",
        element("ram:AssociatedDocumentLineDocument", element("ram:LineID", str(line.position))),
        element("ram:SpecifiedTradeProduct", element("ram:Name", line.text)),
        element("ram:SpecifiedLineTradeAgreement", element("ram:NetPriceProductTradePrice", price)),
        element(
            "ram:SpecifiedLineTradeDelivery",
            element("ram:BilledQuantity", str(line.quantity), unitCode=ONE),
        ),
        element("ram:SpecifiedLineTradeSettlement", _rate(line), sums),
    )


def _rate(
    taxed: Line | TaxShare,
    *,
    tax: _Element | None = None,
    reason: _Element | None = None,
    taxable: _Element | None = None,
) -> _Element:
    return element(
        "ram:ApplicableTradeTax",
        tax,
        element("ram:TypeCode", "VAT"),
        reason,
        taxable,
        element("ram:CategoryCode", taxed.tax_category),
        element("ram:RateApplicablePercent", percent(taxed.rate_bp)),
    )


def _agreement(document: Document) -> _Element:
    order = element("ram:SellerOrderReferencedDocument", element("ram:IssuerAssignedID", document.order))
    return element(
        "ram:ApplicableHeaderTradeAgreement",
        parties.seller(document.seller),
        parties.buyer(document.buyer),
        order,
    )


def _delivery(document: Document) -> _Element:
    on = element("udt:DateTimeString", day(document.supplied_on), format="102")
    return element(
        "ram:ApplicableHeaderTradeDelivery",
        element("ram:ActualDeliverySupplyChainEvent", element("ram:OccurrenceDateTime", on)),
    )


def _settlement(document: Document) -> _Element:
    return element(
        "ram:ApplicableHeaderTradeSettlement",
        element("ram:PaymentReference", document.number),
        element("ram:InvoiceCurrencyCode", document.currency),
        _means(document),
        *(_tax(share, document.places) for share in document.taxes),
        _terms(document),
        _sums(document),
        _corrected(document),
    )


def _means(document: Document) -> _Element | None:
    """BG-16: only where money is asked for, and there is an account to send it to."""
    account = "".join(document.account.split()).upper()
    if document.kind == CREDIT_NOTE or document.due <= 0 or not account:
        return None
    code = SEPA_TRANSFER if document.currency == "EUR" else TRANSFER
    return element(
        "ram:SpecifiedTradeSettlementPaymentMeans",
        element("ram:TypeCode", code),
        element("ram:PayeePartyCreditorFinancialAccount", element("ram:IBANID", account)),
    )


def _tax(share: TaxShare, places: int) -> _Element:
    reason = (share.reason or "Exempt from tax") if share.tax_category == "E" else ""
    return _rate(
        share,
        tax=element("ram:CalculatedAmount", amount(share.tax, places)),
        reason=optional("ram:ExemptionReason", reason),
        taxable=element("ram:BasisAmount", amount(share.taxable, places)),
    )


def _terms(document: Document) -> _Element | None:
    """BT-20 and BT-9: one of them wherever something is due (BR-CO-25)."""
    if document.due <= 0:
        return None
    if document.kind == CREDIT_NOTE:
        words = "Taken off what is owed; what was paid already is paid back."
        return element("ram:SpecifiedTradePaymentTerms", element("ram:Description", words))
    if document.due_on is None:
        return element("ram:SpecifiedTradePaymentTerms", element("ram:Description", "Due at once."))
    until = element("udt:DateTimeString", day(document.due_on), format="102")
    return element("ram:SpecifiedTradePaymentTerms", element("ram:DueDateDateTime", until))


def _sums(document: Document) -> _Element:
    def told(name: str, minor: int, **attributes: str) -> _Element:
        return element(f"ram:{name}", amount(minor, document.places), **attributes)

    return element(
        "ram:SpecifiedTradeSettlementHeaderMonetarySummation",
        told("LineTotalAmount", document.net),
        told("TaxBasisTotalAmount", document.net),
        told("TaxTotalAmount", document.tax, currencyID=document.currency),
        told("RoundingAmount", document.rounding) if document.rounding else None,
        told("GrandTotalAmount", document.total),
        told("TotalPrepaidAmount", document.prepaid),
        told("DuePayableAmount", document.due),
    )


def _corrected(document: Document) -> _Element | None:
    """BG-3: the invoice that a credit note takes back."""
    if document.corrects is None:
        return None
    number, issued_on = document.corrects
    on = element("qdt:DateTimeString", day(issued_on), format="102")
    return element(
        "ram:InvoiceReferencedDocument",
        element("ram:IssuerAssignedID", number),
        element("ram:FormattedIssueDateTime", on),
    )
