from bookings.orders.models.clients import Client, Consent, ConsentPurpose
from bookings.orders.models.orders import CancelCause, LineKind, Order, OrderLine
from bookings.orders.models.sittings import Sitting

__all__ = ["CancelCause", "Client", "Consent", "ConsentPurpose", "LineKind", "Order", "OrderLine", "Sitting"]
