"""A desk without a server: its secrets for the length of a test, and calls in a database that is thrown away."""

from __future__ import annotations

import pytest
from django.test import Client
from pytest_django import Settings

from halfsplit.desk.records import store
from halfsplit.desk.records.values import CallRecord
from halfsplit.techsheet import sheet_text


@pytest.fixture(autouse=True)
def secrets(settings: Settings) -> None:
    """The folder's secrets are made when a desk is opened; tests open none."""
    settings.SECRET_KEY = "only for this test"
    settings.HALFSPLIT_ACCESS_KEY = "abcdefghjkmnpqrs"


@pytest.fixture
def client() -> Client:
    """A browser on this machine; the desk answers under no made-up name."""
    return Client(SERVER_NAME="localhost")


@pytest.fixture
def call(db: None) -> CallRecord:
    """A dead dryer in Harrow Bend."""
    return store.start_call(*sheet_text("dryer"), complaint="no heat", note="4 Mill Lane, Harrow Bend")
