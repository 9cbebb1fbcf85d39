from datetime import datetime

import django.db.models.deletion
from django.db import migrations, models
from django.db.models import Q

# Kinds whose occasion was the calendar sequence of the sitting.
OF_A_TIME = ['confirmed', 'deposit_due', 'day_before', 'deposit_missing']


def read_the_occasions(apps, editor):
    """What was packed into the occasion gets columns of its own. The occasion stays, as a key."""
    notices = apps.get_model('bookings', 'Notice').objects
    links = set(apps.get_model('bookings', 'StepUp').objects.values_list('pk', flat=True))
    for notice in notices.filter(kind__in=[*OF_A_TIME, 'later', 'posted', 'step_up']).iterator():
        first = notice.occasion.partition(' ')[0]
        if notice.kind == 'later':
            notice.expected_at = datetime.fromisoformat(first)
        elif notice.kind == 'posted':
            notice.parcel_id = int(first)
        elif notice.kind == 'step_up':
            notice.step_up_id = int(first) if int(first) in links else None
        elif first.isdigit():
            notice.sequence = int(first)
        notice.save(update_fields=['expected_at', 'parcel', 'step_up', 'sequence'])
    # The letter of a link that is gone can never be sent.
    notices.filter(kind='step_up', step_up=None).delete()


class Migration(migrations.Migration):

    dependencies = [
        ('bookings', '0002_card_notices_waiting'),
    ]

    operations = [
        migrations.AddField('notice', 'expected_at', models.DateTimeField(help_text='The later start that it tells.', null=True)),
        migrations.AddField('notice', 'parcel', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='notices', to='bookings.parcel')),
        migrations.AddField('notice', 'sequence', models.PositiveSmallIntegerField(help_text='The calendar sequence of the sitting whose time it tells.', null=True)),
        migrations.AddField('notice', 'step_up', models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='+', to='bookings.stepup')),
        migrations.AlterField('notice', 'occasion', models.CharField(help_text='Tells this letter from others of its kind. A key that nobody reads back.', max_length=40)),
        migrations.RunPython(read_the_occasions, migrations.RunPython.noop),
        migrations.AddConstraint('notice', models.CheckConstraint(condition=Q(Q(('kind', 'posted'), ('parcel__isnull', False)), Q(Q(('kind', 'posted'), _negated=True), ('parcel__isnull', True)), _connector='OR'), name='notice_of_its_parcel', violation_error_message='A letter about a parcel names it, and no other letter does.')),
        migrations.AddConstraint('notice', models.CheckConstraint(condition=Q(Q(('kind', 'step_up'), ('step_up__isnull', False)), Q(Q(('kind', 'step_up'), _negated=True), ('step_up__isnull', True)), _connector='OR'), name='notice_with_its_link', violation_error_message='A link for one purpose is mailed with a letter of that kind, and no other.')),
        migrations.AddConstraint('notice', models.CheckConstraint(condition=Q(Q(('expected_at__isnull', False), ('kind', 'later')), Q(Q(('kind', 'later'), _negated=True), ('expected_at__isnull', True)), _connector='OR'), name='notice_of_its_time', violation_error_message='A letter about a later start tells when, and no other letter does.')),
    ]
