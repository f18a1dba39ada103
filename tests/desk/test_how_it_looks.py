"""What a tired person with gloves needs of a page, measured in a real browser."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from tests.desk.bench import dryer
from tests.desk.conftest import LAPTOP, TELEPHONE, Opener
from tests.desk.technician import Technician

LEAST_TARGET_PX = 48.0


def first_check(page: Page) -> None:
    Technician(page, dryer()).start("It turns but does not heat")


def first_reading(page: Page) -> None:
    first_check(page)
    Technician(page, dryer("thermal cut-off:open")).until_reading()


def live_check(page: Page) -> None:
    technician = Technician(page, dryer("plug:L1-open"))
    technician.start("It does nothing at all when I press start")
    while not page.locator(".check.live").count():
        technician.answer()


def one_part(page: Page) -> None:
    technician = Technician(page, dryer("thermal cut-off:open"))
    technician.start("It turns but does not heat")
    technician.finish()


def functions_open(page: Page) -> None:
    first_check(page)
    page.goto(page.url + "?at=seen#seen")


def reading_open(page: Page) -> None:
    first_check(page)
    page.goto(page.url + "?at=reading#reading")


STATES: list[Callable[[Page], object]] = [
    lambda page: page.goto("/"),
    lambda page: page.goto("/new/"),
    lambda page: page.goto("/patterns/"),
    first_check,
    first_reading,
    live_check,
    one_part,
    functions_open,
    reading_open,
]
NAMES = [
    "calls",
    "new call",
    "patterns",
    "first check",
    "first reading",
    "live check",
    "one part",
    "functions",
    "free reading",
]

SMALL = """least => [...document.querySelectorAll('a, button, summary, select, input:not([type=hidden])')]
    .map(element => element.matches('.pick input') ? element.parentElement : element)
    .filter(element => element.checkVisibility({contentVisibilityAuto: true, visibilityProperty: true}))
    .filter(element => !element.matches('.skip'))
    .filter(element => element.getBoundingClientRect().height < least)
    .map(element => element.outerHTML.slice(0, 90))"""


@pytest.mark.parametrize("reach", STATES, ids=NAMES)
def test_a_page_suits_a_telephone_in_a_gloved_hand(open_page: Opener, reach: Callable[[Page], object]) -> None:
    page = open_page(TELEPHONE)
    reach(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= TELEPHONE[0], "it scrolls sideways"
    assert page.evaluate(SMALL, LEAST_TARGET_PX) == []
    cautions = [text for text in page.locator(".signal p").all_inner_texts() if text]
    assert len(cautions) == len(set(cautions)), "a hazard is told twice"
    assert page.title().endswith(" · halfsplit")
    assert page.locator("h1").count() == 1


@pytest.mark.parametrize("size", [TELEPHONE, LAPTOP], ids=["telephone", "laptop"])
@pytest.mark.parametrize("reach", [first_check, first_reading, live_check], ids=NAMES[3:6])
def test_what_to_do_now_and_its_answer_are_on_the_first_screen(
    open_page: Opener, size: tuple[int, int], reach: Callable[[Page], object]
) -> None:
    page = open_page(size)
    reach(page)
    title = page.locator("#check-title").bounding_box()
    answer = page.locator("#answer").bounding_box()
    assert title is not None and answer is not None
    assert page.evaluate("window.scrollY") == 0
    assert title["y"] + title["height"] < size[1] / 3
    assert answer["y"] + answer["height"] <= size[1]


def test_a_live_check_cannot_be_taken_for_a_dead_one(open_page: Opener) -> None:
    page = open_page()
    first_reading(page)
    assert page.locator("#check .signal-word").inner_text().strip() == "CAUTION"
    assert page.locator("#check .kicker").inner_text().startswith("Next check")
    live_check(page)
    assert page.locator("#check .signal-word").inner_text().strip() == "DANGER"
    assert page.locator("#check .kicker").inner_text().upper().startswith("LIVE CHECK")
    assert page.locator("#check").evaluate("check => getComputedStyle(check).borderTopWidth") == "4px"


def test_the_drawing_marks_the_two_points_of_the_check(open_page: Opener) -> None:
    page = open_page()
    first_reading(page)
    fields = Technician(page, dryer()).check()
    marked = page.locator("svg [data-probe]").evaluate_all("marks => marks.map(mark => mark.dataset.at)")
    assert sorted(marked) == sorted((fields["a"], fields["b"]))
    assert page.locator("svg.wd text").first.evaluate("text => getComputedStyle(text).fill") != "rgb(0, 0, 0)"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_ink_stands_out_from_paper_in_light_and_dark(open_page: Opener, scheme: str) -> None:
    """WCAG 2.2, 1.4.3: 4.5 to 1 for text. Measured on what the browser says of the colours on the page."""
    page = open_page(TELEPHONE, color_scheme=scheme)
    first_reading(page)
    for css in ("body", ".so-far", ".check h2", ".facts dt", ".button", ".button.primary", ".error, .chance", ".back"):
        colours = page.locator(css).first.evaluate(
            """element => {
                let paper = element;
                while (getComputedStyle(paper).backgroundColor === 'rgba(0, 0, 0, 0)') paper = paper.parentElement;
                return [getComputedStyle(element).color, getComputedStyle(paper).backgroundColor];
            }"""
        )
        assert contrast(*colours) >= 4.5, (css, colours)


def contrast(ink: str, paper: str) -> float:
    """Contrast ratio after WCAG 2.2, definition of relative luminance."""
    high, low = sorted((luminance(ink), luminance(paper)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def luminance(colour: str) -> float:
    red, green, blue = (float(part) / 255 for part in colour[colour.index("(") + 1 : -1].split(",")[:3])
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in (red, green, blue)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_contrast_of_black_on_white_is_twenty_one() -> None:
    assert contrast("rgb(0, 0, 0)", "rgb(255, 255, 255)") == pytest.approx(21.0)
