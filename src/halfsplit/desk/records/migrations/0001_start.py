"""The first tables: calls, entries, and where each call stood when last weighed."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
    ]

    operations = [
        migrations.CreateModel(
            name='Call',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created', models.DateTimeField()),
                ('sheet', models.TextField()),
                ('title', models.TextField()),
                ('file', models.TextField()),
                ('text', models.TextField()),
                ('complaint', models.TextField(blank=True)),
                ('complaint_says', models.TextField(blank=True)),
                ('note', models.CharField(blank=True, max_length=200)),
            ],
            options={
                'abstract': False,
            },
        ),
        migrations.CreateModel(
            name='Standing',
            fields=[
                ('call', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, primary_key=True, related_name='standing', serialize=False, to='records.call')),
                ('ending', models.CharField(max_length=20)),
                ('says', models.TextField()),
                ('weighed_to', models.PositiveBigIntegerField()),
            ],
        ),
        migrations.CreateModel(
            name='Entry',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('made', models.DateTimeField()),
                ('kind', models.CharField(max_length=20)),
                ('payload', models.JSONField()),
                ('call', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='entries', to='records.call')),
            ],
            options={
                'abstract': False,
            },
        ),
    ]
