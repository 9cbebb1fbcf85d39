from django.db import migrations

from plates.database.append_only import append_only


class Migration(migrations.Migration):
    dependencies = [("plates", "0006_times_known")]

    # Until here SQLite refused changes only.
    operations = [append_only("plates_plateevent", where="sqlite")]
