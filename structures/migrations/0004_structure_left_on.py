from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ("structures", "0003_measured_back"),
    ]

    operations = [
        migrations.AddField(
            model_name="structure",
            name="left_on",
            field=models.DateField(blank=True, null=True, verbose_name="left on"),
        ),
        migrations.AddConstraint(
            model_name="structure",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("finished_on__isnull", True), ("left_on__isnull", True), ("finished_on__gte", models.F("left_on")), _connector="OR"
                ),
                name="structure_finished_after_it_left",
                violation_error_message="A structure can't be finished before the day on which it left.",
            ),
        ),
    ]
