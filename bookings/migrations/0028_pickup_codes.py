import secrets

from django.db import migrations

SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"


def give_codes(apps, editor):
    """Orders that were placed before codes were given out get one too."""
    orders = apps.get_model("bookings", "Order")
    for order in orders.objects.filter(placed_at__isnull=False, pickup_code=None):
        order.pickup_code = "".join(secrets.choice(SIGNS) for _ in range(8))
        order.save(update_fields=["pickup_code"])


class Migration(migrations.Migration):
    dependencies = [("bookings", "0027_promises")]

    operations = [migrations.RunPython(give_codes, migrations.RunPython.noop)]
