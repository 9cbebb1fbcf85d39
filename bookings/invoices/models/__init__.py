from bookings.invoices.models.invoices import (
    DocumentKind,
    Invoice,
    InvoiceLine,
    InvoiceRun,
    InvoiceRunOrder,
    InvoiceSeries,
)
from bookings.invoices.models.sealed import KeptLook

__all__ = [
    "DocumentKind",
    "Invoice",
    "InvoiceLine",
    "InvoiceRun",
    "InvoiceRunOrder",
    "InvoiceSeries",
    "KeptLook",
]
