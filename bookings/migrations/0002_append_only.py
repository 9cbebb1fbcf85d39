from django.db import migrations

from plates.database.append_only import append_only


class Migration(migrations.Migration):
    dependencies = [("bookings", "0001_initial"), ("plates", "0002_append_only")]

    operations = [
        append_only("bookings_payment"),
        append_only("bookings_invoice"),
        append_only("bookings_invoiceline"),
    ]
