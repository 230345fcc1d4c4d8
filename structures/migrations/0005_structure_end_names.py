from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ("structures", "0004_structure_left_on"),
    ]

    operations = [
        migrations.AddField(model_name="structure", name="tag_end_name", field=models.CharField(blank=True, max_length=40)),
        migrations.AddField(model_name="structure", name="far_end_name", field=models.CharField(blank=True, max_length=40)),
    ]
