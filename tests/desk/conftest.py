"""The desk as a technician has it: a real server in a process of its own, and a real browser.

Nothing here touches Django in the process of the tests: the browser's driver runs an event loop in it.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, sync_playwright

SERVE = """
import sys
from pathlib import Path
from halfsplit.desk.start import serve
serve("127.0.0.1", int(sys.argv[2]), Path(sys.argv[1]), ready=lambda port: print(port, flush=True))
"""
SEED = """
import sys
from pathlib import Path
from halfsplit.desk.start import prepare
prepare(Path(sys.argv[1]))
from halfsplit.desk.records import store
print(store.start_call(sys.stdin.read(), sys.argv[2]).number)
"""
TELEPHONE, LAPTOP = (390, 844), (1280, 800)


@dataclass
class Desk:
    """A desk on a folder: it can be started, killed and started again."""

    home: Path
    port: int = 0
    process: subprocess.Popen[str] | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        """Start it; after a kill on the same port as before."""
        command = [sys.executable, "-c", SERVE, str(self.home), str(self.port)]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        self.port = int(self.process.stdout.readline())

    def kill(self) -> None:
        """As a flat battery would: no warning, nothing put away."""
        assert self.process is not None
        os.kill(self.process.pid, signal.SIGKILL)
        self._gone()

    def stop(self) -> None:
        if self.process is not None:
            self.process.terminate()
            self._gone()

    def _gone(self) -> None:
        assert self.process is not None and self.process.stdout is not None
        self.process.wait(timeout=20)
        self.process.stdout.close()
        self.process = None

    def start_call(self, text: str, file: str) -> int:
        """A call on a sheet that is not in the library; its number."""
        command = [sys.executable, "-c", SEED, str(self.home), file]
        done = subprocess.run(command, input=text, capture_output=True, text=True, check=True)
        return int(done.stdout)


@dataclass
class Watch:
    """What the browser complains of: errors on the console, blocked content, failed scripts."""

    said: list[str] = field(default_factory=list)

    def hear(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self.said.append(message.text)


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """One desk for the tests of a file."""
    desk = Desk(tmp_path_factory.mktemp("desk"))
    desk.start()
    yield desk
    desk.stop()


@pytest.fixture(scope="module")
def browser(chromium_path: Path) -> Iterator[Browser]:
    with sync_playwright() as driver:
        browser = driver.chromium.launch(
            executable_path=chromium_path, args=["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
        )
        yield browser
        browser.close()


@dataclass
class Opener:
    """Opens pages, and closes them again when the test is over."""

    browser: Browser
    desk: Desk
    watch: Watch
    contexts: list[BrowserContext] = field(default_factory=list)

    def __call__(self, size: tuple[int, int] = TELEPHONE, **options: Any) -> Page:
        viewport: Any = {"width": size[0], "height": size[1]}
        context = self.browser.new_context(viewport=viewport, base_url=self.desk.url, has_touch=True, **options)
        context.set_default_timeout(20_000)
        self.contexts.append(context)
        page = context.new_page()
        page.on("console", self.watch.hear)
        page.on("pageerror", lambda error: self.watch.said.append(str(error)))
        return page


@pytest.fixture
def watch() -> Watch:
    return Watch()


@pytest.fixture
def open_page(browser: Browser, desk: Desk, watch: Watch) -> Iterator[Opener]:
    """Opens a page on the desk; at the end of the test the browser must have had nothing to complain of."""
    opener = Opener(browser, desk, watch)
    yield opener
    for context in opener.contexts:
        context.close()
    assert watch.said == []
