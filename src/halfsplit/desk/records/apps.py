"""How Django finds the records."""

from django.apps import AppConfig


class RecordsConfig(AppConfig):
    name = "halfsplit.desk.records"
    label = "records"
