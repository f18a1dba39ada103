"""The short sections: currency, default wire, settings, what is asked once a call, temperatures and zones."""

from __future__ import annotations

import re

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.fit import in_doubt
from halfsplit.techsheet.form import ZoneForm
from halfsplit.techsheet.machine import Zone
from halfsplit.techsheet.sections.draft import Draft
from halfsplit.techsheet.words import VERBS, did_you_mean, nearest
from halfsplit.units import read_conductor, read_minutes, read_temperature

_RULER = "setting"
_NAME = re.compile(r"[^\W_][^,:\"]*")


def check_currency(draft: Draft) -> None:
    """Prices are of one currency, by its three letters."""
    if not re.fullmatch(r"[A-Z]{3}", draft.form.currency):
        what = f"{quoted(draft.form.currency)} is not a currency."
        draft.note(("currency",), what, "Write its three capitals, as in USD.")


def default_wire(draft: Draft) -> tuple[int, float] | None:
    """Gauge and ohms of a wire that gives none; None if that cannot be read."""
    return draft.tried(("default wire",), lambda: read_conductor(draft.form.default_wire))


def check_name(name: str, what: str) -> None:
    """A setting, a position or a state can stand in a phrase and be told apart from the rest of it.

    Raises:
        InputError: It cannot.
    """
    if not (_NAME.fullmatch(name) and name.isprintable()) or " or " in f" {name} ":
        right = "Begin with a letter or digit, without comma, colon, quotation mark or the word `or`."
        raise InputError(f"{quoted(name)} cannot be a {what}.", right)


def read_settings(draft: Draft) -> dict[str, tuple[str, ...]]:
    """Every setting that can be used; the others are unsure."""
    settings = {}
    for name, positions in draft.form.settings.items():
        before = len(draft.problems)
        with draft.noting("settings", name):
            _check_setting(name, positions)
        for index, position in enumerate(positions):
            with draft.noting("settings", name, index):
                check_name(position, "position")
        if len(draft.problems) > before or in_doubt(("settings", name), draft.doubts):
            draft.unsure_settings.add(name)
        else:
            settings[name] = tuple(positions)
    draft.variables.update(settings)
    return settings


def _check_setting(name: str, positions: list[str]) -> None:
    check_name(name, "setting")
    verb = next((verb for verb in VERBS if name == verb or name.startswith(f"{verb} ")), "")
    if verb:
        raise InputError(f"{quoted(name)} cannot be a setting, as steps begin with `{verb}`.", "Give it another name.")
    if len(positions) < 2 or len(set(positions)) < len(positions):
        raise InputError(
            f"{quoted(name)} needs two different positions or more.", "Write them in [ ], the start first."
        )


def read_per_call(draft: Draft) -> tuple[str, ...]:
    """Settings that stay the same for a whole call."""
    for index, setting in enumerate(draft.form.per_call):
        with draft.noting("per call", index):
            draft.need("settings")
            if setting not in draft.form.settings:
                right = did_you_mean(setting, draft.form.settings)
                raise InputError(f"There is no setting {quoted(setting)}.", right)
            if setting in draft.form.per_call[:index]:
                raise InputError(f"{quoted(setting)} stands here twice.", "Keep one of them.")
    return tuple(draft.form.per_call)


def read_temperatures(draft: Draft) -> None:
    """Every place with the setting that rules it and °C at each position; what is in doubt is left out."""
    for place, row in draft.form.temperatures.items():
        before = len(draft.problems)
        with draft.noting("temperatures", place):
            setting, positions = _ruler(draft, place, row)
            degrees = _degrees(draft, place, row, positions)
            if len(draft.problems) == before and len(degrees) == len(positions):
                draft.places[place] = (setting, degrees)


def _ruler(draft: Draft, place: str, row: dict[str, str]) -> tuple[str, tuple[str, ...]]:
    if _RULER not in row:
        raise InputError(f"{quoted(place)} has no `setting`.", "Add the setting that rules it, as in `setting: air`.")
    return row[_RULER], draft.positions(row[_RULER])


def _degrees(draft: Draft, place: str, row: dict[str, str], positions: tuple[str, ...]) -> dict[str, float]:
    degrees, meant = {}, set()
    for key, text in row.items():
        if key == _RULER:
            continue
        if key not in positions:
            meant.add(nearest(key, positions))
            what = f"{quoted(row[_RULER])} has no position {quoted(key)}."
            draft.note(("temperatures", place, key), what, did_you_mean(key, positions))
            continue
        with draft.noting("temperatures", place, key):
            degrees[key] = read_temperature(text)
    for position in positions:
        if position not in row and position not in meant:
            what = f"{quoted(place)} has no temperature for {quoted(position)}."
            draft.note(("temperatures", place), what, f"Add it, as in `{position}: 70 °F`.")
    return degrees


def read_zones(draft: Draft) -> dict[str, Zone]:
    """Every zone with its minutes."""
    return {name: _zone(draft, name, form) for name, form in draft.form.zones.items()}


def _zone(draft: Draft, name: str, form: ZoneForm) -> Zone:
    minutes = {}
    for key, text in (("open", form.open), ("close", form.close)):
        with draft.noting("zones", name, key):
            minutes[key] = read_minutes(text)
    return Zone(name, form.title, minutes.get("open", 0.0), minutes.get("close", 0.0))
