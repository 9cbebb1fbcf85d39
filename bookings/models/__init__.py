"""Rows of the human side: the studio, its days, clients, orders, payments, invoices and notices."""

from bookings.models.calendar import Sitting, SittingDay, Venue
from bookings.models.cards import CardCheckout, CardNotice, Outcome
from bookings.models.feed import CalendarFeed
from bookings.models.handover import HandedPlate, HandedTo, Handover, NamedPerson, Parcel, Receipt
from bookings.models.invoices import (
    DocumentKind,
    Invoice,
    InvoiceLine,
    InvoiceRun,
    InvoiceRunOrder,
    InvoiceSeries,
)
from bookings.models.kept_away import KeptLook
from bookings.models.line import CALLING, LinePlace
from bookings.models.notices import REMINDERS, MailAway, Notice, NoticeKind, ReminderStop
from bookings.models.orders import CancelCause, LineKind, Order, OrderLine
from bookings.models.payments import CashUp, Method, Payment
from bookings.models.people import Client, Consent, ConsentPurpose
from bookings.models.prices import (
    Discount,
    Extra,
    ExtraKind,
    SizePrice,
    Surcharge,
    SurchargeKind,
    TaxClass,
)
from bookings.models.step_up import Purpose, StepUp
from bookings.models.studio import Studio
from bookings.models.terms import NoPlate, Terms
from bookings.models.vouchers import Voucher, WrongCode
from bookings.models.waiting import Waiting
from bookings.models.wordings import Wording

__all__ = [
    "CALLING",
    "REMINDERS",
    "CalendarFeed",
    "CancelCause",
    "CardCheckout",
    "CardNotice",
    "CashUp",
    "Client",
    "Consent",
    "ConsentPurpose",
    "Discount",
    "DocumentKind",
    "Extra",
    "ExtraKind",
    "HandedPlate",
    "HandedTo",
    "Handover",
    "Invoice",
    "InvoiceLine",
    "InvoiceRun",
    "InvoiceRunOrder",
    "InvoiceSeries",
    "KeptLook",
    "LineKind",
    "LinePlace",
    "MailAway",
    "Method",
    "NamedPerson",
    "NoPlate",
    "Notice",
    "NoticeKind",
    "Order",
    "OrderLine",
    "Outcome",
    "Parcel",
    "Payment",
    "Purpose",
    "Receipt",
    "ReminderStop",
    "Sitting",
    "SittingDay",
    "SizePrice",
    "StepUp",
    "Studio",
    "Surcharge",
    "SurchargeKind",
    "TaxClass",
    "Terms",
    "Venue",
    "Voucher",
    "Waiting",
    "Wording",
    "WrongCode",
]
