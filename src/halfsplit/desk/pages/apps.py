"""How Django finds the pages' templates and styles."""

from django.apps import AppConfig


class PagesConfig(AppConfig):
    name = "halfsplit.desk.pages"
    label = "pages"
