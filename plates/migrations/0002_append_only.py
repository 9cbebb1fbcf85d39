from django.db import migrations

from plates.database.append_only import append_only


class Migration(migrations.Migration):
    dependencies = [("plates", "0001_initial")]

    operations = [append_only("plates_plateevent")]
