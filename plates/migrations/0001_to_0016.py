"""Everything up to 0016 in one step, for a new database: the tables as they were then, and the row they began with.

A database that has some of the migrations named here goes on with those, one by one.
"""

import datetime
import django.core.validators
import django.db.models.deletion
from decimal import Decimal
from django.conf import settings
from django.db import migrations, models

from plates.database.append_only import append_only
from plates.store.guards import BATCH_AS_MIXED
from plates.store.guards import BATCH_NEVER_DELETED


def one_row(apps, editor):
    apps.get_model('plates', 'Finishing').objects.get_or_create(pk=1)


class Migration(migrations.Migration):

    initial = True

    replaces = [
        ('plates', '0001_initial'),
        ('plates', '0002_append_only'),
        ('plates', '0003_foresight'),
        ('plates', '0004_presses'),
        ('plates', '0005_plate_facts'),
        ('plates', '0006_times_known'),
        ('plates', '0007_nothing_deleted'),
        ('plates', '0008_given_up'),
        ('plates', '0011_store_room'),
        ('plates', '0014_chemistry_limits'),
        ('plates', '0015_waste'),
        ('plates', '0016_finishing'),
    ]

    dependencies = [
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name='ClosedDay',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('on', models.DateField(unique=True, verbose_name='date')),
                ('why', models.CharField(blank=True, max_length=80, verbose_name='why')),
            ],
            options={
                'ordering': ['on'],
            },
        ),
        migrations.CreateModel(
            name='WasteContainer',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('label', models.CharField(help_text='What stands on the container, for example W 3.', max_length=40, unique=True)),
                ('kind', models.CharField(choices=[('silver', 'Silver: fixer, rinses, residues of the bath'), ('solvent', 'Ether, alcohol, collodion, varnish'), ('cadmium', 'Cadmium'), ('cyanide', 'Cyanide'), ('acid', 'Acids'), ('other', 'Something else')], max_length=8)),
                ('kept', models.BooleanField(default=True, help_text='Still in the studio.')),
            ],
            options={
                'ordering': ['label'],
            },
        ),
        migrations.CreateModel(
            name='Batch',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('collodion', 'Collodion'), ('bath', 'Silver bath'), ('developer', 'Developer'), ('fixer', 'Fixer'), ('varnish', 'Varnish')], max_length=10)),
                ('label', models.CharField(help_text='What stands on the bottle, for example C 14.', max_length=40, unique=True)),
                ('recipe_key', models.CharField(blank=True, max_length=60)),
                ('recipe_name', models.CharField(blank=True, max_length=120)),
                ('contents', models.JSONField(default=list)),
                ('made_ul', models.PositiveBigIntegerField(verbose_name='volume made (microlitres)')),
                ('silver_mg', models.PositiveBigIntegerField(blank=True, help_text='In a bath when it was made, if it is known.', null=True, verbose_name='silver nitrate (mg)')),
                ('mixed_at', models.DateTimeField()),
                ('mixed_on', models.DateField()),
                ('ripe_from', models.DateField()),
                ('best_before', models.DateField(blank=True, help_text='The first day on which it is past its best.', null=True)),
                ('opened_on', models.DateField(blank=True, null=True)),
                ('ended_at', models.DateTimeField(blank=True, null=True)),
                ('ended_why', models.CharField(blank=True, choices=[('used_up', 'Used up'), ('discarded', 'To the waste')], max_length=10)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('mixed_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'verbose_name_plural': 'batches',
                'ordering': ['-mixed_at', '-id'],
                'constraints': [models.CheckConstraint(condition=models.Q(('made_ul__gt', 0)), name='batch_has_volume', violation_error_message='A batch is more than nothing: say what volume was made.'), models.CheckConstraint(condition=models.Q(('ripe_from__gte', models.F('mixed_on')), models.Q(('best_before__isnull', True), ('best_before__gt', models.F('ripe_from')), _connector='OR')), name='batch_days_in_order', violation_error_message='A batch is mixed first, then ripe, then past its best: look at the days.'), models.CheckConstraint(condition=models.Q(('opened_on__isnull', True), ('opened_on__gte', models.F('mixed_on')), _connector='OR'), name='batch_opened_after_mixing', violation_error_message='A batch is opened on the day it was mixed or later.'), models.CheckConstraint(condition=models.Q(('silver_mg__isnull', True), ('kind', 'bath'), _connector='OR'), name='batch_silver_of_a_bath', violation_error_message='Only a silver bath is made with silver nitrate.'), models.CheckConstraint(condition=models.Q(models.Q(('ended_at__isnull', True), ('ended_why', '')), models.Q(('ended_at__gte', models.F('mixed_at')), ('ended_at__isnull', False), models.Q(('ended_why', ''), _negated=True)), _connector='OR'), name='batch_end_has_reason', violation_error_message='A batch ends after it was mixed, with a reason, and only then has one.')],
            },
        ),
        migrations.CreateModel(
            name='BatchEvent',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('taken', 'Taken out'), ('added', 'Put to it'), ('counted', 'Measured in the bottle')], max_length=10)),
                ('amount_ul', models.PositiveBigIntegerField(verbose_name='volume (microlitres)')),
                ('at', models.DateTimeField()),
                ('note', models.CharField(blank=True, max_length=200)),
                ('batch', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='events', to='plates.batch')),
                ('operator', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['at', 'id'],
                'constraints': [models.CheckConstraint(condition=models.Q(('kind', 'counted'), ('amount_ul__gt', 0), _connector='OR'), name='batch_event_moves_something', violation_error_message='Nothing was taken or added: only a count may find nothing.')],
                'indexes': [models.Index(fields=['batch', 'at'], name='batch_event_in_time')],
            },
        ),
        migrations.CreateModel(
            name='BathReading',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('at', models.DateTimeField()),
                ('gravity_e4', models.PositiveIntegerField(null=True, verbose_name='specific gravity (ten-thousandths)')),
                ('scale', models.CharField(blank=True, choices=[('20/20', '20 °C against water at 20 °C'), ('60F/60F', '60 °F against water at 60 °F'), ('20/4', '20 °C against water at 4 °C (g/mL)')], max_length=8)),
                ('celsius_tenths', models.PositiveSmallIntegerField(null=True)),
                ('grains_tenths', models.PositiveIntegerField(null=True, verbose_name='grains to the ounce (tenths)')),
                ('ounce', models.CharField(blank=True, choices=[('us_ounce', 'US fluid ounce'), ('imperial_ounce', 'imperial fluid ounce')], max_length=16)),
                ('sample_ul', models.PositiveIntegerField(null=True)),
                ('titrant_ul', models.PositiveIntegerField(null=True)),
                ('titrant_mmol_l', models.PositiveIntegerField(null=True)),
                ('ph_hundredths', models.PositiveSmallIntegerField(null=True)),
                ('volume_ul', models.PositiveBigIntegerField(null=True)),
                ('note', models.CharField(blank=True, max_length=200)),
                ('batch', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='readings', to='plates.batch')),
                ('operator', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['at', 'id'],
                'constraints': [models.CheckConstraint(condition=models.Q(('gravity_e4__isnull', False), ('grains_tenths__isnull', False), ('titrant_ul__isnull', False), ('ph_hundredths__isnull', False), ('volume_ul__isnull', False), _connector='OR'), name='bath_reading_reads_something', violation_error_message='A reading reads something: fill in at least one measurement.'), models.CheckConstraint(condition=models.Q(models.Q(('celsius_tenths__isnull', True), ('gravity_e4__isnull', True), ('scale', '')), models.Q(('celsius_tenths__isnull', False), ('gravity_e4__gt', 0), ('gravity_e4__isnull', False), models.Q(('scale', ''), _negated=True)), _connector='OR'), name='bath_reading_float_whole', violation_error_message='A hydrometer needs its scale and the warmth of the bath with it.'), models.CheckConstraint(condition=models.Q(models.Q(('grains_tenths__isnull', True), ('ounce', '')), models.Q(('grains_tenths__isnull', False), models.Q(('ounce', ''), _negated=True)), _connector='OR'), name='bath_reading_grains_whole', violation_error_message='Grains to the ounce need which ounce, US or imperial.'), models.CheckConstraint(condition=models.Q(models.Q(('sample_ul__isnull', True), ('titrant_mmol_l__isnull', True), ('titrant_ul__isnull', True)), models.Q(('sample_ul__gt', 0), ('sample_ul__isnull', False), ('titrant_mmol_l__gt', 0), ('titrant_mmol_l__isnull', False), ('titrant_ul__isnull', False)), _connector='OR'), name='bath_reading_titration_whole', violation_error_message='A titration needs the sample, the thiocyanate used and how strong it is.'), models.CheckConstraint(condition=models.Q(models.Q(('ph_hundredths__isnull', True), ('ph_hundredths__lte', 1400), _connector='OR'), models.Q(('volume_ul__isnull', True), ('volume_ul__gt', 0), _connector='OR')), name='bath_reading_possible', violation_error_message='A pH lies from 0 to 14, and a bath is more than nothing.')],
                'indexes': [models.Index(fields=['batch', 'at'], name='bath_reading_in_time')],
            },
        ),
        migrations.CreateModel(
            name='ClearingTime',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('seconds', models.PositiveSmallIntegerField()),
                ('at', models.DateTimeField()),
                ('batch', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='clearing_times', to='plates.batch')),
                ('operator', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['at', 'id'],
                'constraints': [models.CheckConstraint(condition=models.Q(('seconds__gte', 1), ('seconds__lte', 3600)), name='clearing_takes_time', violation_error_message='A plate clears in a second or more, and within an hour.')],
            },
        ),
        migrations.CreateModel(
            name='Finishing',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('dry_least', models.PositiveIntegerField(default=30, help_text='Minutes.', validators=[django.core.validators.MaxValueValidator(40320)], verbose_name='shortest drying')),
                ('dry_usual', models.PositiveIntegerField(default=60, help_text='Minutes.', validators=[django.core.validators.MaxValueValidator(40320)], verbose_name='usual drying')),
                ('dry_most', models.PositiveIntegerField(default=240, help_text='Minutes.', validators=[django.core.validators.MaxValueValidator(40320)], verbose_name='longest drying')),
                ('cure_least', models.PositiveIntegerField(default=720, help_text='Minutes.', validators=[django.core.validators.MaxValueValidator(40320)], verbose_name='shortest cure')),
                ('cure_usual', models.PositiveIntegerField(default=1440, help_text='Minutes.', validators=[django.core.validators.MaxValueValidator(40320)], verbose_name='usual cure')),
                ('cure_most', models.PositiveIntegerField(default=4320, help_text='Minutes.', validators=[django.core.validators.MaxValueValidator(40320)], verbose_name='longest cure')),
                ('weekdays', models.CharField(default='123456', help_text='On these plates are varnished, packed and handed over, but not on closed days.', max_length=7, verbose_name='days of work')),
                ('session_begins', models.TimeField(default=datetime.time(9, 0), help_text='What is dry by then can be varnished that day.', verbose_name='varnish from')),
                ('session_minutes', models.PositiveSmallIntegerField(default=120, validators=[django.core.validators.MaxValueValidator(720)], verbose_name='length of it in minutes')),
                ('session_plates', models.PositiveSmallIntegerField(default=12, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(500)], verbose_name='plates a session')),
                ('packed_at', models.TimeField(default=datetime.time(17, 0), help_text='What has cured by then can be collected that day.', verbose_name='packed at')),
                ('certainty', models.PositiveSmallIntegerField(default=95, help_text='How many of a hundred promised dates are to be kept.', validators=[django.core.validators.MinValueValidator(50), django.core.validators.MaxValueValidator(99)], verbose_name='certainty of a promised date (%)')),
            ],
            options={
                'verbose_name': 'finishing',
                'verbose_name_plural': 'finishing',
                'constraints': [models.CheckConstraint(condition=models.Q(('id', 1)), name='finishing_one_row'), models.CheckConstraint(condition=models.Q(('dry_least__lte', models.F('dry_usual')), ('dry_usual__lte', models.F('dry_most')), ('cure_least__lte', models.F('cure_usual')), ('cure_usual__lte', models.F('cure_most'))), name='finishing_times_in_order', violation_error_message='The shortest time is no longer than the usual one, nor that than the longest.'), models.CheckConstraint(condition=models.Q(('certainty__range', (50, 99)), ('session_plates__gte', 1), models.Q(('weekdays', ''), _negated=True)), name='finishing_certainty', violation_error_message='A date is kept with 50 to 99 % certainty, on at least one day of the week, one plate a session.')],
            },
        ),
        migrations.CreateModel(
            name='OwnRecipe',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=80, unique=True)),
                ('kind', models.CharField(choices=[('collodion', 'Collodion'), ('bath', 'Silver bath'), ('developer', 'Developer'), ('fixer', 'Fixer'), ('varnish', 'Varnish')], max_length=10)),
                ('makes_ul', models.PositiveBigIntegerField(blank=True, help_text='Microlitres that it makes; empty: its liquids added up.', null=True)),
                ('lines', models.JSONField()),
                ('notes', models.CharField(blank=True, max_length=500)),
                ('kept', models.BooleanField(default=True, help_text='Offered when a batch is mixed.')),
            ],
            options={
                'ordering': ['kind', 'name'],
                'constraints': [models.CheckConstraint(condition=models.Q(('makes_ul__isnull', True), ('makes_ul__gt', 0), _connector='OR'), name='own_recipe_makes_something', violation_error_message='A recipe makes more than nothing.')],
            },
        ),
        migrations.CreateModel(
            name='PlateNumber',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('last', models.PositiveIntegerField(default=0)),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(('id', 1)), name='plate_number_one_row')],
            },
        ),
        migrations.CreateModel(
            name='PlateSize',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=40, unique=True)),
                ('width_mm', models.DecimalField(decimal_places=3, max_digits=7, validators=[django.core.validators.MinValueValidator(Decimal('10'))], verbose_name='width (mm)')),
                ('height_mm', models.DecimalField(decimal_places=3, max_digits=7, validators=[django.core.validators.MinValueValidator(Decimal('10'))], verbose_name='height (mm)')),
                ('wash_places', models.PositiveSmallIntegerField(default=1, help_text='How many places in the wash one plate of this size takes.', validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(50)])),
                ('offered', models.BooleanField(default=True, help_text='Shown to clients who choose their plates.')),
            ],
            options={
                'ordering': ['width_mm', 'height_mm'],
                'constraints': [models.CheckConstraint(condition=models.Q(('height_mm__gt', 0), ('width_mm__gt', 0)), name='plate_size_sides', violation_error_message='Both sides of a plate must be longer than nothing.'), models.CheckConstraint(condition=models.Q(('wash_places__gte', 1)), name='plate_size_wash_places', violation_error_message='A plate takes at least one place in the wash.')],
            },
        ),
        migrations.CreateModel(
            name='Bench',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('limited_by_collodion', models.BooleanField(default=True, help_text='Once a batch of it is written down, no more plates are promised than it is enough for.', verbose_name='collodion limits the diary')),
                ('limited_by_developer', models.BooleanField(default=False, help_text='Once a batch of it is written down, no more plates are promised than it is enough for.', verbose_name='developer limits the diary')),
                ('limited_by_fixer', models.BooleanField(default=False, help_text='Once a batch of it is written down, no more plates are promised than it is enough for.', verbose_name='fixer limits the diary')),
                ('limited_by_varnish', models.BooleanField(default=False, help_text='Once a batch of it is written down, no more plates are promised than it is enough for.', verbose_name='varnish limits the diary')),
                ('spares_sure', models.PositiveSmallIntegerField(default=90, help_text='So much is kept back for plates made again that it is enough on so many days in a hundred.', validators=[django.core.validators.MinValueValidator(50), django.core.validators.MaxValueValidator(99)], verbose_name='sure of the spoilt plates (%)')),
                ('weak_bath', models.CharField(choices=[('blocks', 'no further plates are promised'), ('slows', 'plates stay in it longer'), ('nothing', 'nothing')], default='blocks', help_text='From the day on which the plates booked until then have made it too weak.', max_length=8, verbose_name='a bath below its least strength')),
                ('unsunned_bath', models.CharField(choices=[('blocks', 'no further plates are promised'), ('slows', 'plates stay in it longer'), ('nothing', 'nothing')], default='nothing', help_text='From the day on which the plates booked until then have made it due.', max_length=8, verbose_name='a bath due to be rested in light')),
                ('slow_minutes', models.PositiveSmallIntegerField(default=2, validators=[django.core.validators.MaxValueValidator(60)], verbose_name='longer in a slow bath (minutes)')),
                ('rest_after_plates', models.PositiveSmallIntegerField(blank=True, help_text='Empty: it needs no rest within a day.', null=True, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(1000)], verbose_name='the bath rests after so many plates')),
                ('rest_minutes', models.PositiveSmallIntegerField(default=20, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(1440)], verbose_name='length of that rest (minutes)')),
                ('name', models.CharField(max_length=60, unique=True)),
                ('operators', models.PositiveSmallIntegerField(default=1, validators=[django.core.validators.MinValueValidator(1)])),
                ('tank_places', models.PositiveSmallIntegerField(default=1, validators=[django.core.validators.MinValueValidator(1)])),
                ('wash_places', models.PositiveSmallIntegerField(default=6, validators=[django.core.validators.MinValueValidator(1)])),
                ('sitters_at_once', models.PositiveSmallIntegerField(default=3, validators=[django.core.validators.MinValueValidator(1)])),
                ('tolerance', models.PositiveSmallIntegerField(default=5, help_text='A sitter is begun with at most this many minutes after the promised time.')),
                ('settle', models.PositiveSmallIntegerField(default=4, help_text='Greet, seat and pose the sitter.')),
                ('pour', models.PositiveSmallIntegerField(default=2, help_text='Flow the collodion and let it set.')),
                ('sensitise_least', models.PositiveSmallIntegerField(default=3, help_text='Shortest time in the silver bath.')),
                ('sensitise_most', models.PositiveSmallIntegerField(default=5, help_text='Longest time in the silver bath.')),
                ('load', models.PositiveSmallIntegerField(default=1)),
                ('expose', models.PositiveSmallIntegerField(default=2)),
                ('develop', models.PositiveSmallIntegerField(default=2)),
                ('wet_window', models.PositiveSmallIntegerField(default=8, help_text='From leaving the bath until development has ended.')),
                ('fix', models.PositiveSmallIntegerField(default=2)),
                ('fix_within', models.PositiveSmallIntegerField(default=2, help_text='Longest wait between developing and fixing.')),
                ('wash_least', models.PositiveSmallIntegerField(default=60, help_text='Shortest wash.')),
                ('wash_most', models.PositiveSmallIntegerField(default=120, help_text='Longest a plate may stay in the wash.')),
                ('lift', models.PositiveSmallIntegerField(default=1, help_text='Take a plate out of the wash and rack it.')),
                ('farewell', models.PositiveSmallIntegerField(default=2)),
                ('farewell_within', models.PositiveSmallIntegerField(default=5, help_text='Longest wait between the last fixing and the farewell.')),
                ('first_pour_within', models.PositiveSmallIntegerField(default=12, help_text='The first plate is poured this soon after the sitter is greeted.')),
                ('next_pour_within', models.PositiveSmallIntegerField(default=11, help_text='Each next plate is poured this soon after the last was fixed.')),
                ('wait_chance', models.PositiveSmallIntegerField(blank=True, default=10, help_text='No sitting is sold that makes a long wait likelier than this for anybody; empty: not regarded.', null=True, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(100)], verbose_name='chance of a long wait (%)')),
                ('wait_limit', models.PositiveSmallIntegerField(default=10, help_text='A sitter who is begun more minutes late than this has waited long.')),
                ('retake_chance', models.PositiveSmallIntegerField(default=15, help_text='Plates in a hundred that have to be made again.', validators=[django.core.validators.MaxValueValidator(95)])),
                ('no_show_chance', models.PositiveSmallIntegerField(default=5, help_text='Sitters in a hundred who do not come.', validators=[django.core.validators.MaxValueValidator(100)])),
                ('spread', models.PositiveSmallIntegerField(default=25, help_text='How far the real minutes of a step scatter about the planned ones.', validators=[django.core.validators.MaxValueValidator(200)])),
                ('late_minutes', models.PositiveSmallIntegerField(default=4, help_text='How far sitters scatter about their time when they arrive.')),
                ('largest_size', models.ForeignKey(blank=True, help_text='The largest plate that fits the silver tank; empty for any.', null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='plates.platesize')),
            ],
            options={
                'verbose_name_plural': 'benches',
                'ordering': ['name'],
                'constraints': [models.CheckConstraint(condition=models.Q(('spares_sure__gte', 1), ('spares_sure__lte', 99)), name='bench_spares_sure', violation_error_message='Be sure of the spoilt plates on 1 to 99 days in a hundred.'), models.CheckConstraint(condition=models.Q(('rest_minutes__gte', 1), models.Q(('rest_after_plates__isnull', True), ('rest_after_plates__gte', 1), _connector='OR')), name='bench_bath_rests', violation_error_message='A rest comes after one plate or more, and lasts a minute or more.'), models.CheckConstraint(condition=models.Q(('operators__gte', 1), ('sitters_at_once__gte', 1), ('tank_places__gte', 1), ('wash_places__gte', 1)), name='bench_has_places', violation_error_message='A bench needs at least one operator, tank place, wash place and sitter.'), models.CheckConstraint(condition=models.Q(('sensitise_least__lte', models.F('sensitise_most'))), name='bench_bath_range', violation_error_message='The shortest bath cannot be longer than the longest.'), models.CheckConstraint(condition=models.Q(('wash_least__lte', models.F('wash_most'))), name='bench_wash_range', violation_error_message='The shortest wash cannot be longer than the longest.')],
            },
        ),
        migrations.CreateModel(
            name='BathCare',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('at', models.DateTimeField()),
                ('kind', models.CharField(choices=[('in_use', 'Put to use at the bench'), ('rested', 'Taken out of use, rested'), ('filtered', 'Filtered'), ('sunned', 'Sunned'), ('salt', 'Silver nitrate added, dry'), ('stock', 'Stock solution added'), ('water', 'Distilled water added'), ('acid', 'Acid added'), ('alkali', 'Bicarbonate added'), ('poured_off', 'Bath poured off')], max_length=12)),
                ('salt_mg', models.PositiveBigIntegerField(null=True)),
                ('poured_ul', models.PositiveBigIntegerField(null=True)),
                ('stock_mg_l', models.PositiveIntegerField(null=True)),
                ('note', models.CharField(blank=True, max_length=200)),
                ('batch', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='care', to='plates.batch')),
                ('operator', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('bench', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='plates.bench')),
            ],
            options={
                'verbose_name_plural': 'bath care',
                'ordering': ['at', 'id'],
                'constraints': [models.CheckConstraint(condition=models.Q(models.Q(('kind', 'in_use'), ('bench__isnull', False)), models.Q(models.Q(('kind', 'in_use'), _negated=True), ('bench__isnull', True)), _connector='OR'), name='bath_care_at_a_bench', violation_error_message='A bath is put to use at a bench, and only then is one named.'), models.CheckConstraint(condition=models.Q(models.Q(('kind', 'salt'), ('salt_mg__gt', 0), ('salt_mg__isnull', False)), models.Q(models.Q(('kind', 'salt'), _negated=True), ('salt_mg__isnull', True)), _connector='OR'), name='bath_care_salt_weighed', violation_error_message='Dry salt is weighed: say how many grams were added.'), models.CheckConstraint(condition=models.Q(models.Q(('kind__in', ['stock', 'water', 'poured_off']), ('poured_ul__gt', 0), ('poured_ul__isnull', False)), ('kind__in', ['acid', 'alkali']), models.Q(models.Q(('kind__in', ['stock', 'water', 'poured_off', 'acid', 'alkali']), _negated=True), ('poured_ul__isnull', True)), _connector='OR'), name='bath_care_poured_measured', violation_error_message='What is poured is measured: say how many millilitres.'), models.CheckConstraint(condition=models.Q(models.Q(('kind', 'stock'), ('stock_mg_l__gt', 0), ('stock_mg_l__isnull', False)), models.Q(models.Q(('kind', 'stock'), _negated=True), ('stock_mg_l__isnull', True)), _connector='OR'), name='bath_care_stock_strength', violation_error_message='A stock solution needs its strength in g/L.')],
                'indexes': [models.Index(fields=['batch', 'at'], name='bath_care_in_time')],
            },
        ),
        migrations.CreateModel(
            name='BenchDay',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('on', models.DateField(verbose_name='date')),
                ('opens_at', models.DateTimeField()),
                ('closes_at', models.DateTimeField()),
                ('racks_empty_by', models.DateTimeField()),
                ('start_every', models.PositiveSmallIntegerField(default=15, help_text='Minutes between offered start times.', validators=[django.core.validators.MinValueValidator(1)])),
                ('version', models.PositiveIntegerField(default=0, editable=False)),
                ('bench', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='days', to='plates.bench')),
            ],
            options={
                'ordering': ['on', 'bench_id'],
                'constraints': [models.UniqueConstraint(fields=('bench', 'on'), name='bench_day_once', violation_error_message='This bench is already at work on that date.'), models.CheckConstraint(condition=models.Q(('closes_at__lte', models.F('racks_empty_by')), ('opens_at__lt', models.F('closes_at'))), name='bench_day_hours', violation_error_message='A day opens before it closes, and the racks are emptied no earlier than that.'), models.CheckConstraint(condition=models.Q(('start_every__gte', 1)), name='bench_day_grid')],
            },
        ),
        migrations.CreateModel(
            name='DayStarts',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('order', models.CharField(max_length=60)),
                ('standing', models.CharField(max_length=40)),
                ('starts', models.JSONField()),
                ('undecided', models.JSONField()),
                ('bound_by', models.CharField(blank=True, max_length=80)),
                ('holds_until', models.DateTimeField(help_text='When a hold lapses, more may be possible than is said here.', null=True)),
                ('day', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='starts_known', to='plates.benchday')),
            ],
            options={
                'verbose_name_plural': 'day starts',
                'constraints': [models.UniqueConstraint(fields=('day', 'order'), name='day_starts_once')],
            },
        ),
        migrations.CreateModel(
            name='DayTimes',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('standing', models.CharField(max_length=40)),
                ('worked_out_at', models.DateTimeField()),
                ('day', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='times_known', to='plates.benchday')),
            ],
            options={
                'verbose_name_plural': 'day times',
            },
        ),
        migrations.CreateModel(
            name='Foreseen',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('version', models.PositiveIntegerField()),
                ('start', models.IntegerField(help_text='Minutes from the opening of the day.')),
                ('order', models.CharField(max_length=60)),
                ('leaving', models.PositiveBigIntegerField(default=0, help_text='The job that gives up its present place for this one; 0 for a new sitting.')),
                ('plans', models.JSONField()),
                ('day', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='foreseen', to='plates.benchday')),
            ],
            options={
                'verbose_name_plural': 'foreseen',
                'constraints': [models.UniqueConstraint(fields=('day', 'start', 'order', 'leaving'), name='foreseen_once')],
            },
        ),
        migrations.CreateModel(
            name='BenchJob',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('starts_at', models.DateTimeField(verbose_name='promised start')),
                ('held_until', models.DateTimeField()),
                ('confirmed_at', models.DateTimeField(blank=True, null=True)),
                ('begun_at', models.DateTimeField(blank=True, null=True, verbose_name='first plate poured')),
                ('released_at', models.DateTimeField(blank=True, null=True)),
                ('expected_at', models.DateTimeField(blank=True, help_text='When it will really begin, on a day that runs late.', null=True)),
                ('plan', models.JSONField(help_text='Minutes from the opening of the day, as the capacity engine planned them.')),
                ('day', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='jobs', to='plates.benchday')),
            ],
            options={
                'ordering': ['starts_at', 'id'],
                'constraints': [models.CheckConstraint(condition=models.Q(('held_until__lte', models.F('starts_at'))), name='bench_job_held_to_start', violation_error_message='A place is held until its start at the latest.'), models.CheckConstraint(condition=models.Q(('begun_at__isnull', True), ('released_at__isnull', True), _connector='OR'), name='bench_job_begun_is_kept', violation_error_message='A sitting that has begun can no longer be given back.')],
                'indexes': [models.Index(fields=['day', 'starts_at'], name='plates_benc_day_id_b82dcf_idx')],
            },
        ),
        migrations.CreateModel(
            name='PlateSlot',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveSmallIntegerField()),
                ('given_up_at', models.DateTimeField(blank=True, help_text='The sitting ended without this plate; none is poured for it any more.', null=True)),
                ('job', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='slots', to='plates.benchjob')),
                ('size', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='plates.platesize')),
            ],
            options={
                'ordering': ['job_id', 'position'],
                'constraints': [models.UniqueConstraint(fields=('job', 'position'), name='plate_slot_once')],
            },
        ),
        migrations.CreateModel(
            name='Plate',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('number', models.PositiveIntegerField(unique=True)),
                ('stage', models.CharField(choices=[('poured', 'Poured'), ('sensitised', 'Sensitised'), ('exposed', 'Exposed'), ('developed', 'Developed'), ('fixed', 'Fixed'), ('washing', 'Washing'), ('drying', 'Drying'), ('varnished', 'Varnished'), ('ready', 'Ready'), ('handed_over', 'Handed over'), ('spoilt', 'Spoilt')], default='poured', max_length=12)),
                ('stage_at', models.DateTimeField()),
                ('spoilt_reason', models.CharField(blank=True, choices=[('fogged', 'Fogged'), ('streaked', 'Streaks or comets in the film'), ('lifted', 'Film lifted or torn'), ('dried', 'Dried before development'), ('moved', 'The sitter moved'), ('exposure', 'Exposure misjudged'), ('damaged', 'Scratched or dropped'), ('other', 'Something else'), ('mistake', 'Never poured: a wrong press')], max_length=12)),
                ('size', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='plates.platesize')),
                ('slot', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='plates', to='plates.plateslot')),
            ],
            options={
                'ordering': ['number'],
                'constraints': [models.UniqueConstraint(condition=models.Q(('stage', 'spoilt'), _negated=True), fields=('slot',), name='plate_one_live_per_slot', violation_error_message='A plate for this place in the order is already being made.'), models.CheckConstraint(condition=models.Q(models.Q(('stage', 'spoilt'), models.Q(('spoilt_reason', ''), _negated=True)), models.Q(models.Q(('stage', 'spoilt'), _negated=True), ('spoilt_reason', '')), _connector='OR'), name='plate_spoilt_has_reason', violation_error_message='A spoilt plate needs a reason, and only a spoilt plate has one.')],
            },
        ),
        migrations.CreateModel(
            name='PlateEvent',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('stage', models.CharField(choices=[('poured', 'Poured'), ('sensitised', 'Sensitised'), ('exposed', 'Exposed'), ('developed', 'Developed'), ('fixed', 'Fixed'), ('washing', 'Washing'), ('drying', 'Drying'), ('varnished', 'Varnished'), ('ready', 'Ready'), ('handed_over', 'Handed over'), ('spoilt', 'Spoilt')], max_length=12)),
                ('at', models.DateTimeField()),
                ('note', models.CharField(blank=True, max_length=200)),
                ('turn', models.PositiveSmallIntegerField(default=0)),
                ('press', models.UUIDField(null=True, unique=True)),
                ('operator', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('plate', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='events', to='plates.plate')),
                ('undoes', models.OneToOneField(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='undone_by', to='plates.plateevent')),
            ],
            options={
                'ordering': ['id'],
                'constraints': [models.UniqueConstraint(condition=models.Q(('undoes__isnull', True)), fields=('plate', 'stage', 'turn'), name='plate_event_once', violation_error_message='This plate has already been through that stage.')],
            },
        ),
        migrations.CreateModel(
            name='PlateFacts',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('batch', models.CharField(blank=True, max_length=40, verbose_name='batch of collodion')),
                ('bath', models.CharField(blank=True, max_length=40, verbose_name='silver bath')),
                ('bath_seconds', models.PositiveSmallIntegerField(blank=True, null=True, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(3600)])),
                ('exposure_seconds', models.DecimalField(blank=True, decimal_places=3, max_digits=7, null=True, validators=[django.core.validators.MinValueValidator(Decimal('0.001')), django.core.validators.MaxValueValidator(3600)])),
                ('lens', models.CharField(blank=True, max_length=80)),
                ('developer_seconds', models.PositiveSmallIntegerField(blank=True, null=True, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(3600)])),
                ('notes', models.TextField(blank=True, max_length=2000)),
                ('picture', models.CharField(blank=True, max_length=60)),
                ('changed_at', models.DateTimeField()),
                ('changed_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('plate', models.OneToOneField(on_delete=django.db.models.deletion.PROTECT, related_name='facts', to='plates.plate')),
            ],
            options={
                'verbose_name_plural': 'plate facts',
                'constraints': [models.CheckConstraint(condition=models.Q(models.Q(('bath_seconds__isnull', True), ('bath_seconds__gt', 0), _connector='OR'), models.Q(('exposure_seconds__isnull', True), ('exposure_seconds__gt', 0), _connector='OR'), models.Q(('developer_seconds__isnull', True), ('developer_seconds__gt', 0), _connector='OR')), name='plate_facts_take_time', violation_error_message='Bath, exposure and development take longer than no time.')],
            },
        ),
        migrations.CreateModel(
            name='StoreRoom',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('target_mg_l', models.PositiveIntegerField(default=90000, help_text='Strength to aim at, in mg/L: 90000 is 90 g/L.', validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(1000000)])),
                ('warn_below_mg_l', models.PositiveIntegerField(default=80000, help_text='Below this the bath is to be strengthened soon.', validators=[django.core.validators.MinValueValidator(0), django.core.validators.MaxValueValidator(1000000)])),
                ('stop_below_mg_l', models.PositiveIntegerField(default=70000, help_text='Below this no plate is sensitised.', validators=[django.core.validators.MinValueValidator(0), django.core.validators.MaxValueValidator(1000000)])),
                ('ph_least_hundredths', models.PositiveIntegerField(default=350, help_text='More acid than this is too acid; 350 is pH 3.5.', validators=[django.core.validators.MinValueValidator(0), django.core.validators.MaxValueValidator(1400)])),
                ('ph_most_hundredths', models.PositiveIntegerField(default=500, help_text='Less acid than this and plates may fog.', validators=[django.core.validators.MinValueValidator(0), django.core.validators.MaxValueValidator(1400)])),
                ('plates_to_filter', models.PositiveIntegerField(default=25, help_text='Filter after so many plates of 4×5 inches.', validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(10000)])),
                ('plates_to_sun', models.PositiveIntegerField(default=100, help_text='Rest and sun after so many plates of 4×5 inches.', validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(10000)])),
                ('plates_to_test', models.PositiveIntegerField(default=15, help_text='Test after so many plates of 4×5 inches.', validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(10000)])),
                ('clinging_nl_cm2', models.PositiveIntegerField(default=14000, help_text='Bath that clings to each cm², in nanolitres: 14000 is 0.014 mL.', validators=[django.core.validators.MinValueValidator(0), django.core.validators.MaxValueValidator(1000000)])),
                ('film_ng_cm2', models.PositiveIntegerField(default=120000, help_text='Silver nitrate that the film takes for each cm², in nanograms.', validators=[django.core.validators.MinValueValidator(0), django.core.validators.MaxValueValidator(1000000)])),
                ('left_nl_cm2', models.PositiveIntegerField(default=5812, help_text='Alcohol and ether left in the bath for each cm², in nanolitres.', validators=[django.core.validators.MinValueValidator(0), django.core.validators.MaxValueValidator(1000000)])),
                ('ether_months', models.PositiveIntegerField(default=6, help_text='Opened ether is tested or thrown away after so many months.', validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(12)])),
                ('weeks_ahead', models.PositiveIntegerField(default=4, help_text='Buy for the work that is booked in so many weeks.', validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(52)])),
                ('fire_limit_ml', models.PositiveIntegerField(blank=True, help_text='What your fire code or insurer allows where you work: no figure is given here, look it up.', null=True, validators=[django.core.validators.MaxValueValidator(1000000)], verbose_name='most ether and alcohol to keep (mL)')),
                ('cyanide_on', models.BooleanField(default=False, help_text='Cyanide kills. With any acid, and the iron developer is acid, it gives off a deadly gas. Leave it off and fix with hypo.', verbose_name='cyanide allowed in the studio')),
            ],
            options={
                'verbose_name_plural': 'store room',
                'constraints': [models.CheckConstraint(condition=models.Q(('id', 1)), name='store_room_one_row'), models.CheckConstraint(condition=models.Q(('stop_below_mg_l__lte', models.F('warn_below_mg_l')), ('warn_below_mg_l__lte', models.F('target_mg_l'))), name='store_room_strengths', violation_error_message='Stop must not lie above warn, nor warn above the target.'), models.CheckConstraint(condition=models.Q(('ph_least_hundredths__lte', models.F('ph_most_hundredths')), ('ph_most_hundredths__lte', 1400)), name='store_room_acidity', violation_error_message='The lower pH must not lie above the upper one, nor that above 14.')],
            },
        ),
        migrations.CreateModel(
            name='Supply',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=80, unique=True)),
                ('kind', models.CharField(choices=[('chemical', 'Chemical'), ('blank', 'Bare plates'), ('case', 'Cases'), ('sleeve', 'Sleeves'), ('other', 'Something else')], max_length=10)),
                ('unit', models.CharField(choices=[('mg', 'weighed (mg)'), ('ul', 'measured (µL)'), ('piece', 'counted in pieces')], max_length=6)),
                ('substance', models.CharField(blank=True, help_text='Its key in the table of hazards, for example ether.', max_length=40)),
                ('pieces_a_plate', models.PositiveSmallIntegerField(default=0)),
                ('least', models.PositiveBigIntegerField(default=0, help_text='In mg, µL or pieces.')),
                ('pack', models.PositiveBigIntegerField(help_text='In mg, µL or pieces.')),
                ('pack_cost', models.PositiveBigIntegerField(blank=True, help_text='In the smallest unit of the currency; empty: not known.', null=True)),
                ('kept', models.BooleanField(default=True, help_text='Still bought and shown.')),
                ('size', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='supplies', to='plates.platesize')),
            ],
            options={
                'verbose_name_plural': 'supplies',
                'ordering': ['kind', 'name'],
                'constraints': [models.CheckConstraint(condition=models.Q(('pack__gt', 0)), name='supply_pack_holds_something', violation_error_message='A pack holds more than nothing.'), models.CheckConstraint(condition=models.Q(models.Q(('kind', 'chemical'), ('unit__in', ['mg', 'ul']), ('pieces_a_plate', 0)), models.Q(models.Q(('kind', 'chemical'), _negated=True), ('unit', 'piece'), ('substance', '')), _connector='OR'), name='supply_measured_by_kind', violation_error_message='Chemicals are weighed or measured, everything else is counted.'), models.CheckConstraint(condition=models.Q(models.Q(('kind', 'blank'), _negated=True), models.Q(('size__isnull', False), ('pieces_a_plate__gte', 1)), _connector='OR'), name='supply_blank_has_size', violation_error_message='Bare plates are of one size, and each plate takes at least one.')],
            },
        ),
        migrations.CreateModel(
            name='SupplyEvent',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('received', 'Received'), ('used', 'Used'), ('counted', 'Counted'), ('discarded', 'To the waste'), ('opened', 'Container opened'), ('tested', 'Tested for peroxide'), ('unsound', 'Rust, crystals or a crust seen')], max_length=10)),
                ('at', models.DateTimeField()),
                ('on', models.DateField(help_text='The date at the studio.')),
                ('amount', models.PositiveBigIntegerField(default=0, help_text='In mg, µL or pieces.')),
                ('cost', models.PositiveBigIntegerField(help_text='Of all that was received, in minor units.', null=True)),
                ('label', models.CharField(blank=True, help_text='What stands on the container.', max_length=40)),
                ('peroxide_tenths_ppm', models.PositiveIntegerField(null=True)),
                ('note', models.CharField(blank=True, max_length=200)),
                ('batch', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='taken_from', to='plates.batch')),
                ('container', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='seen', to='plates.supplyevent')),
                ('operator', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('supply', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='events', to='plates.supply')),
            ],
            options={
                'ordering': ['at', 'id'],
                'constraints': [models.CheckConstraint(condition=models.Q(models.Q(('kind__in', ['received', 'used', 'discarded']), ('amount__gt', 0)), ('kind', 'counted'), models.Q(('kind__in', ['opened', 'tested', 'unsound']), ('amount', 0)), _connector='OR'), name='supply_event_moves_something', violation_error_message='Say how much came or went; only a count may find nothing.'), models.CheckConstraint(condition=models.Q(('kind__in', ['used', 'discarded']), models.Q(('kind__in', ['opened', 'tested', 'unsound']), ('container__isnull', False)), models.Q(('kind__in', ['received', 'counted']), ('container__isnull', True)), _connector='OR'), name='supply_event_seen_of_a_container', violation_error_message='Say which container was opened, tested or looked at.'), models.CheckConstraint(condition=models.Q(models.Q(('kind', 'tested'), ('peroxide_tenths_ppm__isnull', False)), models.Q(models.Q(('kind', 'tested'), _negated=True), ('peroxide_tenths_ppm__isnull', True)), _connector='OR'), name='supply_event_test_has_finding', violation_error_message='A test for peroxide needs what was found, 0 for nothing.'), models.CheckConstraint(condition=models.Q(('cost__isnull', True), ('kind', 'received'), _connector='OR'), name='supply_event_cost_of_what_came', violation_error_message='Only what is received costs something.'), models.UniqueConstraint(condition=models.Q(('kind', 'opened')), fields=('container',), name='supply_event_opened_once', violation_error_message='This container was opened already.')],
                'indexes': [models.Index(fields=['supply', 'at'], name='supply_event_in_time')],
            },
        ),
        migrations.CreateModel(
            name='WasteEntry',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(choices=[('kept', 'Put into it'), ('collected', 'Collected')], max_length=10)),
                ('amount_ul', models.PositiveBigIntegerField(verbose_name='volume (microlitres)')),
                ('on', models.DateField(help_text='The date at the studio.')),
                ('at', models.DateTimeField(help_text='When it was written down.')),
                ('what', models.CharField(blank=True, help_text='What it is, for example used fixer.', max_length=80)),
                ('service', models.CharField(blank=True, help_text='The licensed service that took it.', max_length=120)),
                ('note', models.CharField(blank=True, max_length=200)),
                ('container', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='entries', to='plates.wastecontainer')),
                ('operator', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'verbose_name_plural': 'waste entries',
                'ordering': ['on', 'id'],
                'constraints': [models.CheckConstraint(condition=models.Q(('amount_ul__gt', 0)), name='waste_entry_moves_something', violation_error_message='Nothing was kept or collected: say how much.'), models.CheckConstraint(condition=models.Q(models.Q(('kind', 'kept'), ('service', ''), models.Q(('what', ''), _negated=True)), models.Q(('kind', 'collected'), models.Q(('service', ''), _negated=True)), _connector='OR'), name='waste_entry_says_what_or_who', violation_error_message='Say what was kept, or which licensed service collected it.')],
            },
        ),
        migrations.AddField(
            model_name='benchjob',
            name='retake_of',
            field=models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='retake', to='plates.plate'),
        ),
        append_only('plates_plateevent'),
        append_only('plates_batchevent'),
        append_only('plates_bathreading'),
        append_only('plates_bathcare'),
        append_only('plates_supplyevent'),
        append_only('plates_wasteentry'),
        append_only('plates_clearingtime'),
        BATCH_AS_MIXED.put_up(),
        BATCH_NEVER_DELETED.put_up(),
        migrations.RunPython(one_row, migrations.RunPython.noop),
    ]
