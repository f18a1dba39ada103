"""Records: written once, taken back by another entry, read back as the same values."""

from __future__ import annotations

import math

import pytest

from halfsplit.call import Case, told
from halfsplit.desk.records import store
from halfsplit.desk.records.entries import (
    CannotReach,
    EntryRecord,
    SetTo,
    Skipped,
    TakenBack,
    What,
    read,
    standing_numbers,
    written,
)
from halfsplit.desk.records.models import Call, Entry
from halfsplit.desk.records.values import CallRecord, NoSuchRecordError, case_of
from halfsplit.errors import InputError, SheetError
from halfsplit.techsheet import load_machine, sheet_text
from halfsplit.trade import Look, Measure, Reading, Seen

HEATER = ("heater.1", "heater.2")
READING = Reading(HEATER, "ohms", "dead", 10.7)
EVERYTHING: tuple[What, ...] = (
    READING,
    Reading(HEATER, "ohms", "dead", math.inf),
    Reading(("TB.L1", "TB.L2"), "volts", "plug in, timer timed dry", 0.1 + 0.2),
    Seen("heat", "too much", "customer", "running"),
    Skipped(Look("heat", "running")),
    Skipped(Measure(HEATER, "ohms", "dead")),
    CannotReach("heater.1"),
    SetTo("cord", "3-wire"),
    TakenBack(7),
)


def whats(found: tuple[EntryRecord, ...]) -> list[What]:
    return [entry.what for entry in found if entry.stands]


@pytest.mark.parametrize("what", EVERYTHING, ids=lambda what: type(what).__name__)
def test_every_kind_of_entry_reads_back_as_it_was_written(call: CallRecord, what: What) -> None:
    assert read(*written(what)) == what
    if isinstance(what, TakenBack):
        what = TakenBack(store.entries(call.number)[0].number)
    added = store.add_entry(call.number, what)
    assert store.entries(call.number)[-1] == added
    assert added.what == what


def test_the_kinds_on_disk_have_the_names_they_always_had() -> None:
    """Old calls are read by these names; a new name would orphan them."""
    kinds = {written(what)[0] for what in EVERYTHING}
    assert kinds == {"seen", "reading", "skipped", "cannot reach", "set to", "taken back"}
    assert written(EVERYTHING[1])[1] == {"points": list(HEATER), "mode": "ohms", "setup": "dead", "value": "OL"}


def test_a_call_begins_with_its_settings_and_what_the_customer_told(call: CallRecord) -> None:
    machine = load_machine("dryer")
    entries = store.entries(call.number)
    assert whats(entries) == [SetTo("cord", "4-wire"), *told(machine, "no heat")]
    assert case_of(entries) == Case((("cord", "4-wire"),), evidence=told(machine, "no heat"))
    assert call == store.find_call(call.number)
    assert (call.complaint, call.complaint_says) == ("no heat", machine.complaints["no heat"].says)


def test_something_else_brings_no_evidence(db: None) -> None:
    call = store.start_call(*sheet_text("dryer"), settings={"cord": "3-wire"})
    assert case_of(store.entries(call.number)) == Case((("cord", "3-wire"),))


def test_a_case_holds_what_stands_in_the_order_it_was_entered(call: CallRecord) -> None:
    start = case_of(store.entries(call.number))
    for what in (
        READING,
        Skipped(Look("heat", "running")),
        CannotReach("lamp.1"),
        SetTo("cord", "3-wire"),
        Seen("drum turns", "none", "technician", "running"),
    ):
        store.add_entry(call.number, what)
    case = case_of(store.entries(call.number))
    assert case.fixed == (("cord", "3-wire"),)
    assert case.evidence == (*start.evidence, READING, Seen("drum turns", "none", "technician", "running"))
    assert case.skipped == {Look("heat", "running")}
    assert case.unreachable == {"lamp.1"}


def test_taking_back_and_putting_back_are_entries_themselves(call: CallRecord) -> None:
    before = case_of(store.entries(call.number))
    reading = store.add_entry(call.number, READING)
    with_it = case_of(store.entries(call.number))
    back = store.add_entry(call.number, TakenBack(reading.number))
    assert case_of(store.entries(call.number)) == before
    store.add_entry(call.number, TakenBack(back.number))
    assert case_of(store.entries(call.number)) == with_it
    assert len(store.entries(call.number)) == len(before.evidence) + 1 + 3


def test_what_stands_follows_from_the_later_entries_alone() -> None:
    entries: list[tuple[int, What]] = [
        (1, READING),
        (2, TakenBack(1)),
        (3, TakenBack(2)),
        (4, READING),
        (5, TakenBack(4)),
    ]
    assert standing_numbers(entries) == {1, 3, 5}
    assert standing_numbers(reversed(entries)) == {1, 3, 5}
    assert standing_numbers([(1, TakenBack(2)), (2, READING)]) == {1, 2}


def test_taking_back_twice_counts_once(call: CallRecord) -> None:
    reading = store.add_entry(call.number, READING)
    first = store.add_entry(call.number, TakenBack(reading.number))
    assert store.add_entry(call.number, TakenBack(reading.number)) == first


def test_the_same_thing_sent_twice_from_one_page_counts_once(call: CallRecord) -> None:
    last = store.entries(call.number)[-1].number
    first = store.add_entry(call.number, READING, after=last)
    assert store.add_entry(call.number, READING, after=last) == first
    assert store.add_entry(call.number, READING, after=first.number) != first
    assert len([what for what in whats(store.entries(call.number)) if what == READING]) == 2


def test_a_thing_taken_back_can_be_sent_again_from_an_old_page(call: CallRecord) -> None:
    last = store.entries(call.number)[-1].number
    first = store.add_entry(call.number, READING, after=last)
    store.add_entry(call.number, TakenBack(first.number))
    assert store.add_entry(call.number, READING, after=last) != first
    assert whats(store.entries(call.number))[-1] == READING


def test_an_entry_can_replace_others_in_the_same_breath(call: CallRecord) -> None:
    first = store.add_entry(call.number, READING)
    again = Reading(HEATER, "ohms", "dead", 11.0)
    store.add_entry(call.number, again, instead_of=(first.number,))
    assert READING not in whats(store.entries(call.number))
    assert whats(store.entries(call.number))[-1] == again


def test_an_entry_of_another_call_cannot_be_taken_back(call: CallRecord) -> None:
    other = store.start_call(*sheet_text("dryer"))
    foreign = store.entries(other.number)[0]
    with pytest.raises(NoSuchRecordError, match="That entry is not on this call"):
        store.add_entry(call.number, TakenBack(foreign.number))
    assert store.entries(other.number)[0].stands


def test_rows_are_written_once(call: CallRecord) -> None:
    row = Entry.objects.filter(call=call.number).latest("id")
    row.payload = {}
    with pytest.raises(TypeError, match="stands as it was written"):
        row.save()
    with pytest.raises(TypeError, match="add an entry that takes it back"):
        row.delete()
    with pytest.raises(TypeError, match="stays"):
        Call.objects.get(pk=call.number).delete()


@pytest.mark.parametrize("number", [0, 999, 10**30])
def test_a_call_that_is_not_there_is_one_sentence(db: None, number: int) -> None:
    with pytest.raises(NoSuchRecordError, match=f"There is no call {number}."):
        store.find_call(number)
    with pytest.raises(NoSuchRecordError, match=f"There is no call {number}."):
        store.add_entry(number, READING)


@pytest.mark.parametrize(
    ("chosen", "complaint", "note", "sentence"),
    [
        ({}, "no hat", "", "There is no complaint 'no hat'. Did you mean 'no heat'?"),
        ({"chord": "4-wire"}, "", "", "'chord' is not set once for a whole call. Did you mean 'cord'?"),
        ({"cord": "5-wire"}, "", "", "'cord' has no position '5-wire'. Did you mean '4-wire'?"),
        ({}, "", "x" * 201, "That note is too long. Keep it under 200 letters."),
    ],
)
def test_a_call_that_cannot_be_started_leaves_nothing_behind(
    db: None, chosen: dict[str, str], complaint: str, note: str, sentence: str
) -> None:
    with pytest.raises(InputError) as error:
        store.start_call(*sheet_text("dryer"), chosen, complaint, note)
    assert str(error.value) == sentence
    assert store.calls() == ()


def test_a_call_on_a_broken_sheet_is_not_started(db: None) -> None:
    with pytest.raises(SheetError):
        store.start_call("sheet: broken", "broken.yaml")
    assert store.calls() == ()


def test_a_call_keeps_the_sheet_it_began_with(db: None) -> None:
    text, file = sheet_text("dryer")
    older = text.replace("title: Electric clothes dryer", "title: Old clothes dryer")
    call = store.start_call(older, file)
    assert store.find_call(call.number).machine.title.startswith("Old clothes dryer")
    assert store.find_call(call.number).text == older


def test_the_list_is_newest_first_and_goes_on_in_pages(db: None) -> None:
    numbers = [store.start_call(*sheet_text("dryer")).number for _ in range(5)]
    newest = store.calls(most=2)
    assert [call.number for call in newest] == numbers[:2:-1]
    assert [call.number for call in store.calls(before=newest[-1].number, most=10)] == numbers[2::-1]


def test_the_list_says_where_a_call_stood_and_whether_more_came_since(call: CallRecord) -> None:
    (summary,) = store.calls()
    assert (summary.ending, summary.newer_entries) == ("", True)
    last = store.entries(call.number)[-1].number
    store.remember_standing(call.number, "keep looking", "Most likely so far: the heater.", last)
    (summary,) = store.calls()
    assert (summary.ending, summary.says) == ("keep looking", "Most likely so far: the heater.")
    assert not summary.newer_entries
    store.add_entry(call.number, READING)
    assert store.calls()[0].newer_entries
