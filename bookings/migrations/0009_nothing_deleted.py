from django.db import migrations

from bookings.guards import AGREED_TERMS
from bookings.guards import VOUCHER_AS_SOLD
from plates.database.append_only import append_only


class Migration(migrations.Migration):
    dependencies = [("bookings", "0008_vouchers"), ("plates", "0007_nothing_deleted")]

    operations = [
        # Until here SQLite refused changes only.
        append_only("bookings_payment", where="sqlite"),
        append_only("bookings_invoice", where="sqlite"),
        append_only("bookings_invoiceline", where="sqlite"),
        append_only("bookings_cashup", where="sqlite"),
        AGREED_TERMS.put_up(),
        VOUCHER_AS_SOLD.put_up(),
    ]
