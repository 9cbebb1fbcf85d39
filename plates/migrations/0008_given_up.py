from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("plates", "0007_nothing_deleted")]

    operations = [
        migrations.AddField(
            model_name="plateslot",
            name="given_up_at",
            field=models.DateTimeField(
                blank=True,
                help_text="The sitting ended without this plate; none is poured for it any more.",
                null=True,
            ),
        ),
    ]
