"""Fitting any document into any shape: lines stay true, one slip is one sentence, and the rest is kept."""

from pydantic import Field

from halfsplit.errors import Problem
from halfsplit.techsheet import Document, Form, fit, read_document
from halfsplit.techsheet.fit import fit_around, in_doubt
from halfsplit.techsheet.form import Text, Value

FILE = "visit.yaml"
ONE = "Write one text there, in quotes if it has a colon, a comma or brackets."


class ItemForm(Form):
    """One thing of a list."""

    name: Text = Field(description="What it is called.")
    notes: list[str] = Field(default=[], description="Anything else.")


class VisitForm(Form):
    """A shape with a list of shapes and a mapping of shapes."""

    title: Text = Field(description="What it is about.")
    long_note: str = Field(default="", alias="long note", description="Anything.")
    items: list[ItemForm] = Field(default=[], description="Things.")
    places: dict[str, ItemForm] = Field(default={}, description="Places.")
    values: dict[str, Value] = Field(default={}, description="Values.")


def document(text: str) -> Document:
    """A document that is sound as YAML."""
    found, problems = read_document(text, FILE)
    assert problems == ()
    assert found is not None
    return found


def test_a_document_that_fits_is_kept_whole() -> None:
    shape, problems = fit(VisitForm, document("title: a\nitems:\n  - {name: b, notes: [c]}\nlong note: d\n"))
    assert problems == ()
    assert shape == VisitForm.model_validate({"title": "a", "items": [{"name": "b", "notes": ["c"]}], "long note": "d"})


def test_several_wrong_items_of_one_list_are_told_at_their_own_lines() -> None:
    items = ("{name: b}", "c", "{nme: d}", "{name: e}", "{name: [f]}", "{name: g, notes: h}", "{}")
    fitted = fit_around(VisitForm, document("title: a\nitems:\n" + "".join(f"  - {item}\n" for item in items)))
    assert fitted.problems == (
        Problem("Item 2 in 'items' has the wrong shape.", "Write `key: value` lines under it.", FILE, 4),
        Problem("There is no key 'nme' here.", "Did you mean 'name'?", FILE, 5),
        Problem("The value of 'name' has the wrong shape.", ONE, FILE, 7),
        Problem("The value of 'notes' has the wrong shape.", "Write a list, as in [one, two].", FILE, 8),
        Problem("The key 'name' is missing in item 7 of 'items'.", "Add `name`. What it is called.", FILE, 9),
    )
    assert fitted.shape is not None
    assert [item.name for item in fitted.shape.items] == ["b", "?", "?", "e", "?", "g", "?"]
    assert all(in_doubt(("items", index), fitted.doubts) for index in (1, 2, 4, 5, 6))
    assert not any(in_doubt(("items", index), fitted.doubts) for index in (0, 3))


def test_a_list_with_a_hole_is_left_out_and_the_rest_is_kept() -> None:
    text = "title: a\nitems: [{name: b}, c]\nplaces: {x: {name: d}, y: {name: [e]}}\nodd: f\n"
    shape, problems = fit(VisitForm, document(text))
    assert [problem.line for problem in problems] == [2, 3, 4]
    assert shape == VisitForm.model_validate({"title": "a", "places": {"x": {"name": "d"}}})


def test_without_a_required_key_there_is_no_shape() -> None:
    assert fit(VisitForm, document("items: []\n")) == (
        None,
        (Problem("The key 'title' is missing.", "Add `title`. What it is about.", FILE, 1),),
    )


def test_a_misspelt_required_key_is_told_once() -> None:
    assert fit(VisitForm, document("\ntitel: a\n")) == (
        None,
        (Problem("There is no key 'titel' here.", "Did you mean 'title'?", FILE, 2),),
    )


def test_an_unknown_key_beside_the_right_one_casts_no_doubt_on_it() -> None:
    shape, problems = fit(VisitForm, document("title: a\ntitles: b\nplaces: {x: {name: c, names: d}}\n"))
    assert {problem.what for problem in problems} == {"There is no key 'titles' here.", "There is no key 'names' here."}
    assert shape == VisitForm.model_validate({"title": "a", "places": {"x": {"name": "c"}}})


def test_a_key_is_written_with_spaces_only() -> None:
    shape, problems = fit(VisitForm, document("title: a\nlong_note: b\n"))
    assert problems == (Problem("There is no key 'long_note' here.", "Did you mean 'long note'?", FILE, 2),)
    assert shape == VisitForm.model_validate({"title": "a"})


def test_keys_that_look_like_names_of_types_are_keys() -> None:
    text = (
        "title: a\nvalues:\n  start: {str: {b: c}}\n  strip: {'list[str]': {c: d}}\n  dict: [e, [f]]\n  '<text>': g\n"
    )
    fitted = fit_around(VisitForm, document(text))
    assert fitted.problems == (
        Problem("The value of 'str' has the wrong shape.", ONE, FILE, 3),
        Problem("The value of 'list[str]' has the wrong shape.", ONE, FILE, 4),
        Problem("Item 2 in 'dict' has the wrong shape.", ONE, FILE, 5),
    )


def test_a_value_of_any_branch_is_told_of_once() -> None:
    fitted = fit_around(VisitForm, document("title: a\nvalues: {x: {y: {z: w}}}\n"))
    assert fitted.problems == (Problem("The value of 'y' has the wrong shape.", ONE, FILE, 2),)


def test_a_wrong_level_is_told_once_however_deep_the_shape_under_it() -> None:
    fitted = fit_around(VisitForm, document("title: a\nplaces: b\nitems: {c: d}\nvalues: [e]\n"))
    assert [(problem.line, problem.what) for problem in fitted.problems] == [
        (3, "The value of 'items' has the wrong shape."),
        (2, "The value of 'places' has the wrong shape."),
        (4, "The value of 'values' has the wrong shape."),
    ]
    assert fitted.shape == VisitForm.model_validate({"title": "a"})


def test_what_was_refused_in_the_text_is_not_told_again() -> None:
    found, problems = read_document("title: &x a\nitems: *x\n", FILE)
    assert found is not None
    assert len(problems) == 2
    assert fit_around(VisitForm, found).problems == ()


def test_fitting_changes_nothing_in_the_document() -> None:
    found = document("title: [a]\nitems: b\nodd: c\n")
    before = repr(found)
    fit(VisitForm, found)
    assert repr(found) == before


def test_a_shape_with_values_that_are_not_words_is_told_once_and_given_up() -> None:
    class CountForm(Form):
        """A shape that no sheet has."""

        count: int
        title: Text

    assert fit_around(CountForm, document("title: a\ncount: three\n")).shape is None
    assert fit(CountForm, document("title: a\ncount: three\n")) == (
        None,
        (Problem("The value of 'count' has the wrong shape.", "See the built-in sheet for its form.", FILE, 2),),
    )
