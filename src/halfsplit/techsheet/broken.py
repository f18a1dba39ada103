"""What a text that is no YAML gets told, in words that need no knowledge of YAML.

The library names its rules ("mapping values are not allowed here"); a person needs the slip ("a second colon"). What
is not in the table is passed on in the library's words.
"""

from __future__ import annotations

from dataclasses import dataclass

from ruamel.yaml.error import MarkedYAMLError


@dataclass(frozen=True, slots=True)
class _Slip:
    """A slip known by words in what the library was doing and what it then found.

    `opened` says that the slip is where the unfinished thing began, not where the library gave up on it.
    """

    words: str
    what: str
    right: str
    opened: bool = False


_ODD_BEGINNING = "A value may not begin with such a sign."
_QUOTES = "Put the text in quotes."
_COLUMN = "Begin the keys or items of one level in the same column."
_NO_QUOTE = "A quotation mark is opened here and never closed."
_SLIPS = (
    _Slip("found character '\\t'", "There is a tab where only spaces may be.", "Indent with spaces."),
    _Slip("found character", _ODD_BEGINNING, _QUOTES),
    _Slip(
        "mapping values are not allowed here",
        "There is a second colon here, or the line above is not finished.",
        "Put text with a colon in quotes, and begin each key in the column of its neighbours.",
    ),
    _Slip(
        "sequence entries are not allowed here",
        "A list item may not begin here.",
        "Give each `- item` a line of its own, in the column of its neighbours.",
    ),
    _Slip("could not find expected ':'", "There is no colon after this key.", "Write `key: value`.", opened=True),
    _Slip("found unexpected end of stream", _NO_QUOTE, "Close it.", opened=True),
    _Slip("found unexpected document separator", _NO_QUOTE, "Close it.", opened=True),
    _Slip(
        "expected ',' or ']'",
        "The [ opened here is not closed, or a comma is missing.",
        "Close it with ].",
        opened=True,
    ),
    _Slip(
        "expected ',' or '}'",
        "The { opened here is not closed, or a comma is missing.",
        "Close it with }.",
        opened=True,
    ),
    _Slip(
        "expected <block end>, but found '<scalar>'",
        "There is text here after a closing quotation mark or bracket.",
        "Put the whole value in quotes.",
    ),
    _Slip(
        "expected <block end>",
        "This line is not indented like its neighbours.",
        _COLUMN,
    ),
    _Slip(
        "expected the node content",
        "A value is missing here, or a bracket above is not closed.",
        "Write the value, or close the bracket.",
    ),
    _Slip("'<document start>'", "This line does not belong to what stands above it.", _COLUMN),
    _Slip("while scanning an alias", _ODD_BEGINNING, _QUOTES),
    _Slip("while scanning an anchor", _ODD_BEGINNING, _QUOTES),
    _Slip("while scanning a tag", _ODD_BEGINNING, _QUOTES),
    _Slip("while scanning a block scalar", _ODD_BEGINNING, _QUOTES),
    _Slip("while scanning a directive", "A line may not begin with %.", _QUOTES),
    _Slip(
        "escape",
        "A backslash in double quotes means something else here.",
        "Use single quotes, or no backslash.",
    ),
)


def plain_words(error: MarkedYAMLError) -> tuple[int, str, str]:
    """Line (from 1), what is wrong, and what would be right.

    Args:
        error: Raised by the YAML library.
    """
    said = str(error.problem or "it breaks off").strip().splitlines()[0]
    for slip in _SLIPS:
        if slip.words in f"{error.context} {said}":
            return _line(error, opened=slip.opened), slip.what, slip.right
    what = f"This is not readable as YAML: {said}."
    return _line(error, opened=False), what, "Check the colons, quotes and indentation there."


def _line(error: MarkedYAMLError, *, opened: bool) -> int:
    stopped, began = error.problem_mark, error.context_mark
    mark = (began or stopped) if opened else (stopped or began)
    return int(mark.line) + 1 if mark else 1
