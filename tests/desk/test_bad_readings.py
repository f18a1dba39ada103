"""Bad input comes back beside its field with one sentence, and what was typed is still there."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page

from halfsplit.errors import InputError
from halfsplit.techsheet import load_machine, point_of
from halfsplit.units import read_reading
from tests.desk.bench import dryer
from tests.desk.conftest import Opener, Watch
from tests.desk.technician import Technician

DRYER = load_machine("dryer")
REFUSED = "Failed to load resource: the server responded with a status of 422 (Unprocessable Entity)"
"""The browser writes every page with such a status on its console; the status is meant."""


@pytest.fixture
def technician(open_page: Opener, watch: Watch) -> Iterator[Technician]:
    technician = Technician(open_page(), dryer("thermal cut-off:open"))
    technician.start("It turns but does not heat")
    technician.until_reading()
    yield technician
    watch.said[:] = [said for said in watch.said if said != REFUSED]


def sentence_of(typed: str, mode: str) -> str:
    """The engine's own sentence."""
    with pytest.raises(InputError) as error:
        read_reading(typed, mode)
    return f"{error.value.what} {error.value.right}".replace("\u00a0", " ")


@pytest.mark.parametrize("typed", ["banana", "118 V", "-3", "900 Mohm", "", "1 2", "<b>12</b>"])
def test_a_bad_answer_stays_in_its_field_with_one_sentence(technician: Technician, typed: str) -> None:
    page, before = technician.page, technician.log
    technician.read(typed)
    assert page.locator("#answer [role=alert]").inner_text().replace("\u00a0", " ") == sentence_of(typed, "ohms")
    assert page.locator("[role=alert]").count() == 1
    assert page.locator("#value").input_value() == typed
    assert page.locator("#value").evaluate("field => field === document.activeElement")
    assert technician.log == before
    technician.read("0.3")
    assert len(technician.log) == len(before) + 1


@pytest.mark.parametrize(
    ("typed", "shown"), [("0.4 ohm", "0.4 Ω"), ("118", "118 Ω"), ("2.4k", "2.4 kΩ"), ("ol", "OL"), ("0,3", "0.3 Ω")]
)
def test_a_reading_is_taken_as_people_write_it(technician: Technician, typed: str, shown: str) -> None:
    page = technician.page
    page.locator("#value").fill(typed)
    technician.hand.press(page, page.get_by_role("button", name="Save", exact=True))
    assert f"reads {shown}," in technician.log[-1].replace("\u00a0", " ")


def fill_free(page: Page, a: str, b: str, mode: str, setup: str, value: str) -> None:
    page.goto(page.url.partition("?")[0] + "?at=reading#reading")
    page.locator("#free-a").fill(a)
    page.locator("#free-b").fill(b)
    page.locator(f"#reading input[value={mode}]").check(force=True)
    page.locator("#setup").select_option(setup)
    page.locator("#free-value").fill(value)


def send(technician: Technician) -> None:
    technician.hand.press(technician.page, technician.page.get_by_role("button", name="Save the reading"))


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        (("heater.1", "heater.9", "ohms", "dead", "10.7"), "free-b", "'heater' has no terminal '9'."),
        (("heatr.1", "heater.2", "ohms", "dead", "10.7"), "free-a", "There is no part 'heatr'. Did you mean 'heater'?"),
        (("heater.1", "heater.1", "ohms", "dead", "10.7"), "free-b", "Both probes are on heater.1."),
        (("TB.L1", "TB.L2", "ohms", "running", "10.7"), "setup", "Read ohms in a setup with the plug out."),
        (("heater.1", "heater.2", "volts", "running", "10.7 ohm"), "free-value", "is in Ω, but this check reads V."),
        (("heater.1", "lamp.1", "amps", "running", "5"), "free-b", "No one wire or part joins heater.1 and lamp.1."),
    ],
)
def test_a_bad_free_reading_says_which_field_and_keeps_all_of_them(
    technician: Technician, typed: tuple[str, str, str, str, str], field: str, words: str
) -> None:
    page, before = technician.page, technician.log
    fill_free(page, *typed)
    send(technician)
    assert page.locator("[role=alert]").count() == 1
    assert words in page.locator("#reading [role=alert]").inner_text()
    assert page.locator("[aria-invalid=true]").get_attribute("id") == field
    assert page.locator(f"#{field}").evaluate("field => field === document.activeElement")
    kept = [page.locator(f"#{name}").input_value() for name in ("free-a", "free-b", "setup", "free-value")]
    mode = page.locator("#reading input[name=mode]:checked").get_attribute("value")
    assert (kept[0], kept[1], mode, kept[2], kept[3]) == typed
    assert technician.log == before


def test_a_good_free_reading_is_taken_at_any_points_and_the_form_stays_ready(technician: Technician) -> None:
    page = technician.page
    fill_free(page, "HEATER.1", "heater.2", "ohms", "dead medium", "10.7 ohm")
    send(technician)
    a, b = point_of(technician.bench.machine, "heater.1"), "heater.2"
    assert technician.log[-1].startswith(f"{a} to {b} reads 10.7 Ω, unplugged")
    assert "10.7 Ω: heater.1 to heater.2" in page.locator("#reading [role=status]").inner_text().replace("\u00a0", " ")
    assert page.locator("#reading input[name=mode]:checked").get_attribute("value") == "ohms"
    assert page.locator("#setup").input_value() == "dead medium"


def test_a_new_call_without_a_complaint_asks_for_it_and_keeps_the_rest(open_page: Opener, watch: Watch) -> None:
    page = open_page()
    page.goto("/new/")
    page.get_by_label(DRYER.title, exact=True).check(force=True)
    page.get_by_label("3-wire").check(force=True)
    page.locator("#note").fill("4 Mill Lane <i>")
    with page.expect_navigation():
        page.get_by_role("button", name="Start the call").tap()
    assert page.locator("[role=alert]").inner_text().startswith("What does the customer say?")
    assert page.get_by_label("3-wire").is_checked()
    assert page.locator("#note").input_value() == "4 Mill Lane <i>"
    with page.expect_navigation():
        page.get_by_text("Something else", exact=True).filter(visible=True).tap()
        page.get_by_role("button", name="Start the call").tap()
    assert page.locator("#about .set .pressed").inner_text() == "3-wire"
    watch.said[:] = [said for said in watch.said if said != REFUSED]
