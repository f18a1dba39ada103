"""Anything can be taken back and put back; a check can be skipped or be out of reach."""

from __future__ import annotations

from tests.desk.bench import dryer
from tests.desk.conftest import Opener
from tests.desk.technician import Technician


def begin(open_page: Opener) -> Technician:
    technician = Technician(open_page(), dryer("thermal cut-off:open"))
    technician.start("It turns but does not heat")
    technician.until_reading()
    return technician


def shares(technician: Technician) -> list[str]:
    return technician.page.locator("#suspects .suspect").all_inner_texts()


def test_taking_back_restores_the_answer_and_putting_back_restores_the_entry(open_page: Opener) -> None:
    technician = begin(open_page)
    page, hand = technician.page, technician.hand
    before = technician.log, technician.verdict, technician.proposal, shares(technician)
    technician.answer()
    after = technician.log, technician.verdict, shares(technician)
    assert shares(technician) != before[3]
    hand.press(page, page.locator(".bar").get_by_role("button", name="Take back"))
    assert (technician.log[:-1], technician.verdict, technician.proposal, shares(technician)) == before
    assert technician.log[-1].startswith("Taken back: ")
    assert page.locator("#log .gone").count() == 1
    hand.press(page, page.locator(".bar").get_by_role("button", name="Put back"))
    assert (technician.verdict, shares(technician)) == after[1:]
    assert after[0][-1] in technician.log


def test_what_the_customer_told_can_be_taken_back_from_the_log(open_page: Opener) -> None:
    technician = begin(open_page)
    page = technician.page
    told = [line for line in technician.log if line.startswith("Customer: heat is none")]
    assert len(told) == 1
    line = page.locator("#log li", has_text="Customer: heat is none")
    technician.hand.press(page, line.get_by_role("button", name="Take back"))
    assert told[0] not in technician.log
    assert page.url.endswith("#log")
    assert line.first.get_by_role("button", name="Put back").is_visible()


def test_a_skipped_check_is_not_proposed_again(open_page: Opener) -> None:
    technician = begin(open_page)
    page = technician.page
    first = technician.proposal
    offered = []
    for _ in range(4):
        technician.hand.press(page, page.get_by_role("button", name="Skip this check"))
        offered.append(technician.proposal)
    skipped = [line for line in technician.log if line.startswith("Skipped: ")]
    assert first not in offered
    assert len(skipped) == 4


def test_a_point_out_of_reach_is_in_no_check_any_more(open_page: Opener) -> None:
    technician = begin(open_page)
    page = technician.page
    point = technician.check()["b"]
    technician.hand.press(page, page.get_by_role("button", name=f"Cannot reach {point}", exact=True))
    assert f"Cannot reach {point}" in technician.log
    for _ in range(6):
        fields = technician.check()
        others = page.locator(".others strong").all_inner_texts()
        assert point not in (fields.get("a"), fields.get("b"))
        assert not any(title.endswith((f" {point}", f" {point} to")) or f" {point} to " in title for title in others)
        technician.hand.press(page, page.get_by_role("button", name="Skip this check"))


def test_another_check_can_be_chosen_and_answered(open_page: Opener) -> None:
    technician = begin(open_page)
    page = technician.page
    other = page.locator(".others a").nth(1)
    title, before = other.locator("strong").inner_text(), technician.log
    technician.hand.press(page, other)
    assert page.locator("#check-title").inner_text() == title
    fields = technician.check()
    technician.answer()
    assert len(technician.log) == len(before) + 1
    assert all(fields[point] in technician.log[-1] for point in ("a", "b") if point in fields)


def test_a_setting_of_the_whole_call_can_be_put_right(open_page: Opener) -> None:
    technician = begin(open_page)
    page = technician.page
    cord = page.locator("#about .set")
    assert cord.locator(".pressed").inner_text() == "4-wire"
    technician.hand.press(page, cord.get_by_role("button", name="3-wire"))
    assert page.locator("#about .set .pressed").inner_text() == "3-wire"
    assert technician.log[-1] == "Cord: 3-wire"


def test_a_function_tapped_differently_replaces_what_was_said_before(open_page: Opener) -> None:
    technician = begin(open_page)
    page = technician.page
    page.goto(page.url.partition("?")[0] + "?at=seen&by=customer#seen")
    ask = technician.bench.machine.functions["heat"].ask
    row = page.locator(".function", has=page.get_by_text(ask))
    assert row.locator(".pressed").inner_text() == "No"
    technician.hand.press(page, row.get_by_role("button", name="Weakly"))
    assert row.locator(".pressed").inner_text() == "Weakly"
    assert row.locator(".mark", has_text="Customer says").count() == 1
    heat = [line for line in technician.log if line.startswith("Customer: heat is")]
    assert [line.partition(",")[0] for line in heat] == ["Customer: heat is weak"]


def test_the_customer_and_the_technician_can_say_different_things(open_page: Opener) -> None:
    technician = begin(open_page)
    page = technician.page
    page.locator("#seen summary").tap()
    assert page.locator(".by [aria-current]").inner_text() == "I saw it"
    ask = technician.bench.machine.functions["heat"].ask
    row = page.locator(".function", has=page.get_by_text(ask))
    technician.hand.press(page, row.get_by_role("button", name="Yes"))
    marks = [mark.partition("\n")[0] for mark in row.locator(".mark").all_inner_texts()]
    assert marks == ["✓ Customer says: No", "✓ I saw it: Yes"]
    top = row.evaluate("row => row.getBoundingClientRect().top")
    assert 0 <= top < 600, "the page came back elsewhere than where the thumb was"
