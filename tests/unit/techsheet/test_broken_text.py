"""Text that is no sheet at all, or no YAML: one sentence at the right line, at once, and nothing is followed."""

import time

import pytest

from halfsplit.errors import Problem
from halfsplit.techsheet import read_document, read_sheet
from tests.unit.techsheet.warmer import FILE, SHEET, changed, line_of

COLUMN = "Begin the keys or items of one level in the same column."
QUOTES = "Put the text in quotes."
UNSEEN = "Take it out, and save the file as plain text in UTF-8."
PLAIN = "Write it out in full, or put it in quotes if it is text."
LAUGHS = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{name}: &{name} [{', '.join([f'*{before}'] * 9)}]\n" for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)


def told(text: str) -> list[Problem]:
    """What is said of a text that gives no machine, in the file of the tests."""
    machine, problems = read_sheet(text, FILE)
    assert machine is None
    return list(problems)


@pytest.mark.parametrize(
    ("text", "line", "what", "right"),
    [
        ("", 1, "There is nothing in this file.", "Begin with `key: value` lines, as in the built-in sheet."),
        (
            "# a remark\n\n",
            1,
            "There is nothing in this file.",
            "Begin with `key: value` lines, as in the built-in sheet.",
        ),
        ("just words", 1, "The file does not begin with a `key: value` line.", "Begin with one, as in `sheet: NAME`."),
        ("- a\n- b\n", 1, "The file does not begin with a `key: value` line.", "Begin with one, as in `sheet: NAME`."),
        ("\n\n[a, b]", 3, "The file does not begin with a `key: value` line.", "Begin with one, as in `sheet: NAME`."),
        ("a: b\n\tc: d\n", 2, "There is a tab where only spaces may be.", "Indent with spaces."),
        ("a: [b, c\nd: e\n", 1, "The [ opened here is not closed, or a comma is missing.", "Close it with ]."),
        ("x: y\na: {b: c\n", 2, "The { opened here is not closed, or a comma is missing.", "Close it with }."),
        ('a: b\nc: "d\ne: f\n', 2, "A quotation mark is opened here and never closed.", "Close it."),
        (
            "a: b: c\n",
            1,
            "There is a second colon here, or the line above is not finished.",
            "Put text with a colon in quotes, and begin each key in the column of its neighbours.",
        ),
        ("a:\n  b: c\n d: e\n", 3, "This line is not indented like its neighbours.", COLUMN),
        ("a: b\nc\nd: e\n", 2, "There is no colon after this key.", "Write `key: value`."),
        ("a: b\nc: @d\n", 2, "A value may not begin with such a sign.", QUOTES),
        ("a: b\nc: `d`\n", 2, "A value may not begin with such a sign.", QUOTES),
        ("a: b\nc: * d\n", 2, "A value may not begin with such a sign.", QUOTES),
        ("a: b\nc: |d\n", 2, "A value may not begin with such a sign.", QUOTES),
        ("%YAML x\n---\na: b\n", 1, "A line may not begin with %.", QUOTES),
        (
            'a: "b\\qc"\n',
            1,
            "A backslash in double quotes means something else here.",
            "Use single quotes, or no backslash.",
        ),
        (
            "a: b\nc: [d, , e]\n",
            2,
            "A value is missing here, or a bracket above is not closed.",
            "Write the value, or close the bracket.",
        ),
        ("a: b\n- c\n", 2, "This line is not indented like its neighbours.", COLUMN),
        (
            "%YAML 2.0\n---\na: b\n",
            1,
            "This is not readable as YAML: found incompatible YAML document (version 1.* is required).",
            "Check the colons, quotes and indentation there.",
        ),
        ("  a: b\nc: d\n", 2, "This line does not belong to what stands above it.", COLUMN),
        (
            "a: b\nc: 'd' e\n",
            2,
            "There is text here after a closing quotation mark or bracket.",
            "Put the whole value in quotes.",
        ),
        ("a: b\x07\n", 1, "There is a character here that nobody can see (code 7).", UNSEEN),
        ("a: b\nc: d\0\n", 2, "There is a character here that nobody can see (code 0).", UNSEEN),
        ("a: b\n\nc: \ud800\n", 3, "There is a character here that nobody can see (code 55296).", UNSEEN),
        ("a: b\nc\u200b: d\n", 2, "There is a character here that nobody can see (code 8203).", UNSEEN),
        ("a: \u202eb\n", 1, "There is a character here that nobody can see (code 8238).", UNSEEN),
        (
            'a: b\nc: "\\UFFFFFFFF"\n',
            2,
            "This cannot be read as YAML text.",
            "Write plain text, as in the built-in sheet.",
        ),
        ("[" * 100_000, 1, "The file does not begin with a `key: value` line.", "Begin with one, as in `sheet: NAME`."),
        ("a: " + "[" * 100_000, 1, "This is nested too deep.", "Write at most 12 levels."),
        (
            "".join(f"{' ' * depth}a:\n" for depth in range(20)),
            13,
            "This is nested too deep.",
            "Write at most 12 levels.",
        ),
        (f"a: [{'b,' * 20_000}]", 1, "This holds far too many values.", "A sheet is a few pages of text."),
    ],
)
def test_a_broken_text_gets_one_sentence(text: str, line: int, what: str, right: str) -> None:
    assert told(text) == [Problem(what, right, FILE, line)]


@pytest.mark.parametrize("letter", ["x", "é", "[", "\n", "\0", "\ud800"])
def test_a_huge_text_is_refused_before_it_costs_time(letter: str) -> None:
    text = letter * 10_000_000
    start = time.perf_counter()
    said = told(text)
    assert time.perf_counter() - start < 0.2
    assert said == [Problem("This is larger than 256 kB.", "A sheet is a few pages of text.", FILE, 1)]


def test_bytes_count_not_characters() -> None:
    assert told("é" * 140_000)[0].what == "This is larger than 256 kB."
    assert told("e" * 140_000)[0].what != "This is larger than 256 kB."


def test_aliases_that_would_blow_up_are_refused_without_being_followed() -> None:
    start = time.perf_counter()
    document, problems = read_document(LAUGHS, FILE)
    assert time.perf_counter() - start < 0.2
    assert document is not None
    assert document.tree["i"] == [""] * 9
    assert problems == (
        Problem("The mark '&a' is not read here.", PLAIN, FILE, 1),
        *(
            Problem(f"The mark '{sign}{name}' is not read here.", PLAIN, FILE, line)
            for line, (before, own) in enumerate(zip("abcdefgh", "bcdefghi", strict=True), 2)
            for sign, name in (("&", own), ("*", before))
        ),
    )


@pytest.mark.parametrize(
    ("change", "line", "said"),
    [
        (("title: Plate warmer", "title: &t Plate warmer"), 3, [("The mark '&t' is not read here.", PLAIN)]),
        (("title: Plate warmer", "title: *t"), 3, [("The mark '*t' is not read here.", PLAIN)]),
        (
            ("title: Plate warmer", "title: !!python/name:os.system Plate"),
            3,
            [
                (
                    "The mark 'tag:yaml.org,2002:python/name:os.system' is not read here.",
                    "Leave it out, or put it in quotes if it is text.",
                )
            ],
        ),
        (
            ("parts:\n", "parts: !new\n"),
            19,
            [("The mark '!new' is not read here.", "Leave it out, or put it in quotes if it is text.")],
        ),
        (
            ("title: Plate warmer", "title: Plate warmer\n<<: {family: oven}"),
            4,
            [("Merging with `<<` is not read here.", "Write every key out.")],
        ),
        (
            ("title: Plate warmer", "title: Plate warmer\n<<: *base"),
            4,
            [("Merging with `<<` is not read here.", "Write every key out.")],
        ),
        (
            ("about: Invented", "&x about: Invented"),
            5,
            [("The mark '&x' is not read here.", PLAIN)],
        ),
        (
            ("title: Plate warmer", "title: Plate warmer\n? [a, b]\n: c"),
            4,
            [("A key must be plain words.", "Write `key: value`.")],
        ),
        (
            ("title: Plate warmer", "title: Plate warmer\n: c"),
            4,
            [("There is no key before this colon.", "Write `key: value`.")],
        ),
        (
            ("title: Plate warmer", "title: Plate warmer\ntitle: Oven"),
            4,
            [("'title' stands here twice (first in line 3).", "Keep one of them.")],
        ),
        (
            ("    rating: 30 A\n", "    rating: 30 A\n    rating: 40 A\n"),
            26,
            [("'rating' stands here twice (first in line 25).", "Keep one of them.")],
        ),
        (
            ("  wheel:\n", "  lamp:\n    zone: here\n  wheel:\n"),
            94,
            [("'lamp' stands here twice (first in line 51).", "Keep one of them.")],
        ),
        (
            ("title: Plate warmer", 'title: "Plate \\0 warmer"'),
            3,
            [("There is a character here that nobody can see.", "Leave out the backslash code.")],
        ),
        (
            ("title: Plate warmer", 'title: "Plate \\ud83d warmer"'),
            3,
            [("There is a character here that nobody can see.", "Leave out the backslash code.")],
        ),
    ],
)
def test_what_yaml_could_do_and_a_sheet_may_not(
    change: tuple[str, str], line: int, said: list[tuple[str, str]]
) -> None:
    assert told(changed(change)) == [Problem(what, right, FILE, line) for what, right in said]


def test_a_second_document_is_refused_and_the_first_still_checked() -> None:
    text = changed(("currency: USD", "currency: usd")) + "---\nsheet: other\n"
    assert told(text) == [
        Problem("'usd' is not a currency.", "Write its three capitals, as in USD.", FILE, 6),
        Problem(
            "A second document begins here.",
            "Keep one in a file, and no line `---` inside.",
            FILE,
            len(SHEET.splitlines()) + 1,
        ),
    ]


@pytest.mark.parametrize(
    "text",
    [
        f"---\n{SHEET}",
        f"{SHEET}...\n",
        f"%YAML 1.2\n---\n{SHEET}",
        f"\ufeff{SHEET}",
        SHEET.replace("\n", "\r\n"),
        SHEET.replace("plugged in", "branché ☕ 😀"),
        f"{SHEET}# the end",
    ],
    ids=["begun", "ended", "version", "byte-order mark", "other line ends", "other scripts", "no last line end"],
)
def test_what_does_not_matter_does_not_matter(text: str) -> None:
    assert read_sheet(text, FILE)[1] == ()


def test_words_stay_as_typed() -> None:
    document, problems = read_document('a: off\nb: 1-2\nc: 007\nd: "1"\ne: null\nf: ~\ng:\nh: 1e3\n', FILE)
    assert problems == ()
    assert document is not None
    assert document.tree == {"a": "off", "b": "1-2", "c": "007", "d": "1", "e": "null", "f": "~", "g": "", "h": "1e3"}


def test_every_path_has_its_line() -> None:
    document, _ = read_document("a: b\nc:\n  - d\n  - {e: f,\n     g: h}\n", FILE)
    assert document is not None
    paths = [("a",), ("c",), ("c", 0), ("c", 1, "e"), ("c", 1, "g"), ("c", 1, "missing"), ("missing",)]
    assert [document.line(path) for path in paths] == [1, 2, 3, 4, 5, 4, 1]


def test_no_more_than_a_hundred_slips_are_listed() -> None:
    many = "".join(f"  - bleu TB.L1 p{index}.1\n" for index in range(500))
    text = changed(("wires:\n", f"wires:\n{many}"))
    said = told(text)
    assert len(said) == 100
    assert {problem.line for problem in said} <= set(range(line_of("wires:", text), line_of("wires:", text) + 101))


def test_no_more_than_a_hundred_refusals_are_listed() -> None:
    document, problems = read_document("".join(f"k{index}: *x\n" for index in range(500)), FILE)
    assert document is None
    assert problems == tuple(Problem("The mark '*x' is not read here.", PLAIN, FILE, line) for line in range(1, 101))
