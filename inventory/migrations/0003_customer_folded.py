"""Customers are found with dashes, blanks and accents read past: the text for it is added, then filled."""

import unicodedata

from django.db import migrations, models


def fold(text):
    """As it was when this was written."""
    return "".join(c for c in unicodedata.normalize("NFKD", text).casefold() if c.isalnum() and c.isascii())


def fill(apps, schema_editor):
    customers = apps.get_model("inventory", "Customer")
    for customer in customers.objects.filter(folded="").iterator():
        customer.folded = " ".join(fold(text) for text in (customer.name, customer.farm, customer.town) if text)
        customer.save(update_fields=["folded"])


class Migration(migrations.Migration):
    dependencies = [
        ("inventory", "0002_orders"),
    ]

    operations = [
        migrations.AddField(
            model_name="customer",
            name="folded",
            field=models.CharField(blank=True, editable=False, max_length=370),
        ),
        migrations.RunPython(fill, migrations.RunPython.noop),
    ]
