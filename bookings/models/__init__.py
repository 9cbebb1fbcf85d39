"""Rows of the human side: the studio, its days, clients, orders, payments, invoices and notices."""

from bookings.models.calendar import Sitting, SittingDay, Venue
from bookings.models.invoices import Invoice, InvoiceLine, InvoiceSeries
from bookings.models.line import CALLING, LinePlace
from bookings.models.notices import Notice, NoticeKind
from bookings.models.orders import Order, OrderLine
from bookings.models.payments import Method, Payment
from bookings.models.people import Client, Consent, ConsentPurpose
from bookings.models.prices import Extra, ExtraKind, SizePrice, TaxClass, Terms
from bookings.models.studio import Studio

__all__ = [
    "CALLING",
    "Client",
    "Consent",
    "ConsentPurpose",
    "Extra",
    "ExtraKind",
    "Invoice",
    "InvoiceLine",
    "InvoiceSeries",
    "LinePlace",
    "Method",
    "Notice",
    "NoticeKind",
    "Order",
    "OrderLine",
    "Payment",
    "Sitting",
    "SittingDay",
    "SizePrice",
    "Studio",
    "TaxClass",
    "Terms",
    "Venue",
]
