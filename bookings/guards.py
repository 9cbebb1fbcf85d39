"""What the database keeps as it was agreed. Put up by migrations (see `plates.database.guards`)."""

from plates.database.guards import Guard

AGREED_TERMS = Guard(
    table="bookings_terms",
    name="agreed",
    on=["UPDATE", "DELETE"],
    condition="EXISTS (SELECT 1 FROM bookings_order WHERE bookings_order.terms_id = OLD.id)",
    sentence="An order has agreed to these terms, so they stay as they are: write a new version instead.",
)

VOUCHER_AS_SOLD = Guard(
    table="bookings_voucher",
    name="as_sold",
    on=["UPDATE"],
    condition="OLD.code <> NEW.code OR OLD.amount <> NEW.amount OR OLD.currency <> NEW.currency",
    sentence="What a voucher is worth and its code stay as they were sold: give out another one instead.",
)
