"""A reload, a killed server, a double tap: what was entered stays, once."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

import pytest

from tests.desk.bench import dryer
from tests.desk.conftest import Desk, Opener
from tests.desk.technician import Technician

FOUND = 302
COMPLAINT = "It turns but does not heat"


@pytest.fixture
def midway(open_page: Opener) -> Iterator[Technician]:
    """A call on the way, with the meter to be read next."""
    technician = Technician(open_page(), dryer("thermal cut-off:open"))
    technician.start(COMPLAINT)
    technician.until_reading()
    yield technician


def test_a_reload_shows_the_same_and_adds_nothing(midway: Technician) -> None:
    before = midway.log, midway.verdict, midway.proposal
    midway.page.reload()
    assert (midway.log, midway.verdict, midway.proposal) == before


def test_a_killed_desk_has_lost_nothing_when_it_comes_back(midway: Technician, desk: Desk) -> None:
    before = midway.log, midway.verdict, midway.proposal
    desk.kill()
    desk.start()
    midway.page.reload()
    assert (midway.log, midway.verdict, midway.proposal) == before
    midway.finish()
    assert midway.verdict.startswith("It is the thermal cut-off:")


def test_a_desk_killed_between_the_tap_and_the_page_has_the_entry(midway: Technician, desk: Desk) -> None:
    """The redirect is the acknowledgement; the page after it is never fetched."""
    before = midway.log
    assert midway.send_unseen("0.3") == FOUND
    desk.kill()
    desk.start()
    midway.page.reload()
    assert len(midway.log) == len(before) + 1
    assert "reads 0.3 Ω" in midway.log[-1]


def test_what_is_acknowledged_is_on_the_disk(midway: Technician, desk: Desk) -> None:
    """Read the file itself, as it would be found after a crash."""
    assert midway.send_unseen("0.3") == FOUND
    with sqlite3.connect(f"file:{desk.home / 'halfsplit.sqlite3'}?mode=ro", uri=True) as found:
        kinds = [kind for (kind,) in found.execute("select kind from records_entry order by id desc limit 1")]
        mode = found.execute("pragma journal_mode").fetchone()
    found.close()
    assert kinds == ["reading"]
    assert mode == ("wal",)


def test_the_same_form_sent_twice_counts_once(midway: Technician) -> None:
    """A double tap of a gloved finger: the second one carries the same page's number."""
    before = midway.log
    assert [midway.send_unseen("12.3") for _ in range(2)] == [FOUND, FOUND]
    midway.page.reload()
    assert len(midway.log) == len(before) + 1


def test_going_back_and_sending_again_counts_once(midway: Technician) -> None:
    page, before = midway.page, midway.log
    midway.read("12.3")
    page.go_back()
    midway.read("12.3")
    assert len(midway.log) == len(before) + 1
