"""The editor of sheets in a real browser: live messages and drawing, and the same without script."""

from __future__ import annotations

import pytest

from tests.desk.conftest import LAPTOP, TELEPHONE, Opener


@pytest.mark.parametrize("size", [TELEPHONE, LAPTOP], ids=["telephone", "laptop"])
def test_a_slip_is_told_while_it_is_typed_and_gone_when_it_is_mended(open_page: Opener, size: tuple[int, int]) -> None:
    page = open_page(size)
    page.goto("/sheets/begin/")
    page.get_by_text("Electric dryer", exact=True).click()
    page.get_by_role("button", name="Begin").click()
    assert page.locator("#looked svg").count() == 1
    sound = page.locator("#text").input_value()
    page.locator("#text").fill(sound.replace("- orange door.2 lamp.1", "- orange door.2 lamp.7"))
    page.wait_for_selector("#looked .error")
    assert "has no terminal '7'" in page.locator("#looked").inner_text()
    page.locator("#text").fill(sound)
    page.wait_for_selector("#looked svg")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_without_script_a_version_is_saved_and_looked_over(open_page: Opener) -> None:
    page = open_page(java_script_enabled=False)
    page.goto("/sheets/begin/")
    page.get_by_role("button", name="Begin").click()
    text = page.locator("#text").input_value()
    page.locator("#text").fill(text.replace("lamp.1", "lamp.7"))
    page.get_by_role("button", name="Save as a new version").click()
    assert "has no terminal '7'" in page.locator("#looked").inner_text()
    assert page.locator(".ack").inner_text() == "Saved as version 2"


def test_the_way_from_a_sheet_to_a_call_on_it(open_page: Opener) -> None:
    page = open_page()
    page.goto("/")
    page.get_by_role("link", name="Sheets written here").click()
    page.get_by_role("link", name="Write a sheet").click()
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("button", name="Start a call with version 1").click()
    assert "/calls/" in page.url
