from django.db import migrations, models

SENTENCE = "Money was given back for a payment that is not known here. Once that is told, this is entered by itself."


def name_the_waiting(apps, editor):
    """The state that a sentence stood for gets a name of its own."""
    apps.get_model('bookings', 'CardNotice').objects.filter(outcome='look', reason=SENTENCE).update(
        outcome='waiting', reason=''
    )


def say_it_again(apps, editor):
    apps.get_model('bookings', 'CardNotice').objects.filter(outcome='waiting').update(outcome='look', reason=SENTENCE)


class Migration(migrations.Migration):

    dependencies = [
        ('bookings', '0001_initial'),
    ]

    operations = [
        migrations.AlterField(
            model_name='cardnotice',
            name='outcome',
            field=models.CharField(choices=[('paid', 'Entered in the ledger'), ('returned', 'Entered as given back'), ('known', 'Known already'), ('noted', 'Nothing to do'), ('look', 'To be looked at'), ('waiting', 'To be looked at')], max_length=10),
        ),
        migrations.RunPython(name_the_waiting, say_it_again),
    ]
