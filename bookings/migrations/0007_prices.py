"""A discount of neither a share nor a sum is refused; sentences with a per cent sign can be said."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('bookings', '0006_money'),
    ]

    operations = [
        migrations.RemoveConstraint(
            model_name='discount',
            name='discount_share_or_sum',
        ),
        migrations.AddConstraint(
            model_name='discount',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('amount__isnull', True), ('share_bp__gt', 0), ('share_bp__isnull', False), ('share_bp__lte', 10000)), models.Q(('amount__gt', 0), ('amount__isnull', False), ('share_bp__isnull', True)), _connector='OR'), name='discount_share_or_sum', violation_error_message='Give either a share above 0 and up to 100 %%, or a sum above nothing.'),
        ),
        migrations.AlterConstraint(
            model_name='taxclass',
            name='tax_class_rate',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('category', 'S'), ('rate_bp__gt', 0), ('rate_bp__lte', 10000)), models.Q(models.Q(('category', 'S'), _negated=True), ('rate_bp', 0)), _connector='OR'), name='tax_class_rate', violation_error_message='A standard rate lies above 0 and up to 100 %%; zero rate and exempt are 0.'),
        ),
    ]
