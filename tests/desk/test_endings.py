"""The ends of a search: nothing fits, nothing wrong, a few left; and the way on from each."""

from __future__ import annotations

from tests.desk.bench import dryer, lamps, lamps_text
from tests.desk.conftest import Desk, Opener
from tests.desk.technician import Technician
from tests.desk.test_bad_readings import fill_free, send


def impossible(open_page: Opener) -> Technician:
    """Two readings that no fault of the sheet can give together."""
    technician = Technician(open_page(), dryer())
    technician.start("It turns but does not heat")
    fill_free(technician.page, "heater.1", "heater.2", "ohms", "dead", "45")
    send(technician)
    fill_free(technician.page, "thermal cut-off.1", "thermal cut-off.2", "ohms", "dead", "700")
    send(technician)
    technician.page.goto(technician.page.url.partition("?")[0])
    return technician


def test_when_nothing_fits_the_page_says_so_and_names_what_to_read_again(open_page: Opener) -> None:
    technician = impossible(open_page)
    page = technician.page
    assert technician.verdict.startswith("Nothing on this sheet explains this.")
    assert page.locator("#check").count() == 0
    conflicts = page.locator(".conflicts p").all_inner_texts()
    assert sorted(text.partition(",")[0] for text in conflicts) == [
        "heater.1 to heater.2 reads 45 Ω",
        "thermal cut-off.1 to thermal cut-off.2 reads 700 Ω",
    ]


def test_taking_the_conflicts_back_goes_on_with_the_search(open_page: Opener) -> None:
    technician = impossible(open_page)
    page = technician.page
    while page.locator(".conflicts").count():
        technician.hand.press(page, page.locator(".conflicts").get_by_role("button", name="Take back").first)
    assert technician.verdict.startswith("Most likely so far:")
    assert page.locator("#check").count() == 1


def test_the_list_of_calls_says_where_each_stands(open_page: Opener) -> None:
    technician = impossible(open_page)
    page = technician.page
    page.goto("/")
    assert page.locator(".call").first.locator(".chip").inner_text() == "Nothing fits"
    technician.start("It turns but does not heat")
    page.goto("/")
    assert page.locator(".call .chip").all_inner_texts()[:2] == ["Looking", "Nothing fits"]


def test_a_sound_machine_ends_at_nothing_wrong(open_page: Opener, desk: Desk) -> None:
    call = desk.start_call(lamps_text(), "lamps.yaml")
    technician = Technician(open_page(), lamps())
    technician.page.goto(f"/calls/{call}/")
    entered = technician.finish()
    assert entered
    assert technician.page.locator(".standing.nothing-wrong").count() == 1
    assert "nothing is wrong in the machine" in technician.verdict
    assert technician.page.locator(".mend").count() == 0


def test_an_ending_is_no_dead_end(open_page: Opener) -> None:
    """The part was changed and it still does not heat: that is evidence like any other."""
    technician = Technician(open_page(), dryer("thermal cut-off:open"))
    technician.start("It turns but does not heat")
    technician.finish()
    verdict = technician.verdict
    fill_free(technician.page, "thermal cut-off.1", "thermal cut-off.2", "ohms", "dead", "0.2")
    send(technician)
    assert technician.verdict != verdict
