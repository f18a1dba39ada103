"""A technician before the page: taps, or keys alone, with a machine on the bench to see and read."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Protocol

from playwright.sync_api import Locator, Page, Response

from tests.desk.bench import Bench

MOST_CHECKS = 20


class Hand(Protocol):
    """A way to do things on a page."""

    def press(self, page: Page, target: Locator) -> None: ...

    def choose(self, page: Page, radio: Locator) -> None: ...

    def type(self, page: Page, target: Locator, text: str) -> None: ...


class Finger:
    """Taps."""

    def press(self, page: Page, target: Locator) -> None:
        with page.expect_navigation():
            target.tap()

    def choose(self, page: Page, radio: Locator) -> None:
        radio.locator("xpath=..").tap()

    def type(self, page: Page, target: Locator, text: str) -> None:
        target.tap()
        target.fill(text)


class Keys:
    """Tab, arrows, Space and Enter, and never the mouse."""

    def press(self, page: Page, target: Locator) -> None:
        self._tab_to(page, target)
        with page.expect_navigation():
            page.keyboard.press("Enter")

    def choose(self, page: Page, radio: Locator) -> None:
        """Tab into the group, then arrows to the one wanted."""
        group = radio.get_attribute("name")
        for _ in range(200):
            if page.evaluate("name => document.activeElement.name === name", group):
                break
            page.keyboard.press("Tab")
        if not radio.evaluate("radio => radio === document.activeElement"):
            page.keyboard.press("Home")
        for _ in range(60):
            page.keyboard.press("Space")
            if radio.is_checked():
                return
            page.keyboard.press("ArrowDown")
            if radio.is_checked():
                return
        raise AssertionError(f"The keys do not reach {radio}.")

    def type(self, page: Page, target: Locator, text: str) -> None:
        self._tab_to(page, target)
        page.keyboard.press("ControlOrMeta+A")
        page.keyboard.type(text)

    def _tab_to(self, page: Page, target: Locator) -> None:
        for _ in range(300):
            if target.evaluate("element => element === document.activeElement"):
                return
            page.keyboard.press("Tab")
        raise AssertionError(f"Tab does not reach {target}.")


@dataclass
class Technician:
    """Works through a call on a page with a hand and a bench."""

    page: Page
    bench: Bench
    hand: Hand = field(default_factory=Finger)

    def start(self, complaint: str) -> None:
        """From the list of calls to the first check."""
        self.page.goto("/")
        self.hand.press(self.page, self.page.get_by_role("link", name="New call"))
        self.hand.choose(self.page, self.page.get_by_label(self.bench.machine.title, exact=True))
        self.hand.choose(self.page, self.page.get_by_label(complaint, exact=True).filter(visible=True))
        self.hand.press(self.page, self.page.get_by_role("button", name="Start the call"))

    def check(self) -> dict[str, str]:
        """The proposed check as its form has it: points, mode and setup of a reading; empty for a look or an end."""
        form = self.form()
        return {name: form[name] for name in ("a", "b", "mode", "setup") if name in form}

    @property
    def proposal(self) -> tuple[str, str]:
        """Title and setup of the proposed check."""
        return self.page.locator("#check-title").inner_text(), self.page.locator(".bring dd").first.inner_text()

    def until_reading(self) -> None:
        """Do what is proposed up to the first check that needs the meter."""
        while not self.check():
            self.answer()

    def form(self) -> dict[str, str]:
        """Everything that the form of the answer sends along."""
        inputs = self.page.locator("#answer form").last.locator("input[type=hidden]").all()
        return {str(field.get_attribute("name")): str(field.get_attribute("value")) for field in inputs}

    def send_unseen(self, reading: str) -> int:
        """Send the form's reading, but do not go to the page that follows; the status of the answer."""
        sent = self.page.request.post(self.action(), form={**self.form(), "value": reading}, max_redirects=0)
        return sent.status

    def action(self) -> str:
        """Where the form of the answer goes."""
        return str(self.page.locator("#answer form").last.get_attribute("action"))

    def answer(self) -> str:
        """Do the proposed check on the bench and enter what comes out; what was entered."""
        fields = self.check()
        if "a" in fields:
            reading = self.bench.reads(fields["a"], fields["b"], fields["mode"], fields["setup"])
            self.read(reading)
            return reading
        button = self.page.locator("#answer button[name=saw]").first
        function = str(button.get_attribute("value")).partition("/")[2]
        level = self.bench.shows(function)
        self.hand.press(self.page, self.page.locator(f'#answer button[value="{level}/{function}"]'))
        return level

    def read(self, reading: str) -> None:
        """Enter a reading: OL by its button, anything else typed."""
        if reading == "OL":
            self.hand.press(self.page, self.page.locator("#answer .open"))
            return
        self.hand.type(self.page, self.page.locator("#value"), reading)
        self.hand.press(self.page, self.page.get_by_role("button", name="Save", exact=True))

    def finish(self) -> list[str]:
        """Check after check until none is proposed; what was entered."""
        entered: list[str] = []
        while self.page.locator("#answer").count():
            assert len(entered) < MOST_CHECKS, f"no end after {entered}"
            entered.append(self.answer())
        return entered

    @property
    def verdict(self) -> str:
        """The sentence that says where it stands."""
        return self.page.locator(".verdict, .so-far").inner_text()

    @property
    def log(self) -> list[str]:
        """What was entered and counts, without its time."""
        return [text.partition(" ")[2] for text in self.page.locator("#log li:not(.gone) p").all_inner_texts()]


def milliseconds(response: Response) -> float:
    """How long the desk took for an answer, as it says itself."""
    return float(response.headers["server-timing"].partition("dur=")[2])
