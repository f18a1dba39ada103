"""Taps that add an entry: read the form, write one entry, go back to the page where the thumb was.

Everything is on the disk before the answer to it is worked out; that happens when the page is shown again.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, QueryDict
from django.urls import reverse
from django.views.decorators.http import require_POST

from halfsplit.call import one_of
from halfsplit.desk import answers
from halfsplit.desk.pages.asked import (
    Asked,
    about,
    action_in,
    check_key,
    last_seen,
    place_of,
    reading_in,
    refused,
    seen_in,
)
from halfsplit.desk.pages.call import show_call
from halfsplit.desk.records import store
from halfsplit.desk.records.entries import CannotReach, Changed, EntryRecord, SetTo, Skipped, TakenBack
from halfsplit.desk.records.values import CallRecord, case_of
from halfsplit.errors import InputError
from halfsplit.techsheet import point_of
from halfsplit.trade import Observer, Seen
from halfsplit.units import METER_MODES

Step = Callable[[CallRecord, QueryDict], EntryRecord]
Page = Callable[[HttpRequest, int], HttpResponse]


def step(take: Step) -> Page:
    """A page that takes a form: back to where it was sent from, or the same page again with one sentence beside it."""

    @require_POST
    @wraps(take)
    def page(request: HttpRequest, number: int) -> HttpResponse:
        call = store.find_call(number)
        try:
            entry = take(call, request.POST)
        except InputError as error:
            view = Asked(place_of(request.POST), by=_observer(request.POST), check=check_key(request.POST))
            return show_call(request, call, view, refused(error, request.POST))
        return _back(call, entry, request.POST)

    return page


@step
def add_reading(call: CallRecord, fields: QueryDict) -> EntryRecord:
    reading = reading_in(call.machine, fields)
    with about("b" if METER_MODES[reading.mode].where == "wire" else "setup"):  # a clamp may have nothing to go around
        answers.check_item(call.machine, case_of(store.entries(call.number)), reading)
    return store.add_entry(call.number, reading, last_seen(fields))


@step
def add_seen(call: CallRecord, fields: QueryDict) -> EntryRecord:
    """A level tapped again stays; another level of the same function by the same person replaces the first."""
    seen = seen_in(call.machine, fields)
    standing = [entry for entry in store.entries(call.number) if entry.stands]
    changed = max((entry.number for entry in standing if isinstance(entry.what, Changed)), default=0)
    before = [entry for entry in standing if entry.number > changed and _same_place(entry, seen)]
    same = next((entry for entry in before if entry.what == seen), None)
    return same or store.add_entry(call.number, seen, last_seen(fields), tuple(entry.number for entry in before))


@step
def skip(call: CallRecord, fields: QueryDict) -> EntryRecord:
    return store.add_entry(call.number, Skipped(action_in(call.machine, fields)), last_seen(fields))


@step
def cannot_reach(call: CallRecord, fields: QueryDict) -> EntryRecord:
    point = point_of(call.machine, fields.get("point", ""))
    return store.add_entry(call.number, CannotReach(point), last_seen(fields))


@step
def set_to(call: CallRecord, fields: QueryDict) -> EntryRecord:
    position, _, setting = fields.get("set", "").partition("/")
    one_of(setting, call.machine.per_call, "setting of a whole call")
    one_of(position, call.machine.network.variables[setting], f"position of {setting}")
    return store.add_entry(call.number, SetTo(setting, position), last_seen(fields))


@step
def take_back(call: CallRecord, fields: QueryDict) -> EntryRecord:
    entry = fields.get("entry", "")
    if not (entry.isascii() and entry.isdigit() and len(entry) < 19):
        raise InputError("There is no such entry to take back.", "Take it back from the list of what was entered.")
    return store.add_entry(call.number, TakenBack(int(entry)))


def _same_place(entry: EntryRecord, seen: Seen) -> bool:
    what = entry.what
    return isinstance(what, Seen) and (what.function, what.setup, what.by) == (seen.function, seen.setup, seen.by)


def _observer(fields: QueryDict) -> Observer:
    return "customer" if fields.get("by") == "customer" else "technician"


def _back(call: CallRecord, entry: EntryRecord, fields: QueryDict) -> HttpResponseRedirect:
    at = place_of(fields)
    view = {"at": at, "done": str(entry.number)}
    if at == "seen":
        view["by"] = _observer(fields)
    anchor = fields.get("anchor", at)
    return HttpResponseRedirect(f"{reverse('call', args=[call.number])}?{urlencode(view)}#{anchor}")
