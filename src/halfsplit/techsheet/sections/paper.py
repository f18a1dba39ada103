"""What the paper says beside the wiring: nameplate current, expected readings at connectors, cautions.

They stand as given. The solver is held against them elsewhere; here only their words are checked.
"""

from __future__ import annotations

from collections.abc import Mapping

from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.form import PaperReadingForm
from halfsplit.techsheet.machine import Nameplate, PaperReading
from halfsplit.techsheet.sections.draft import Draft
from halfsplit.techsheet.words import did_you_mean
from halfsplit.trade import MODES, Setup
from halfsplit.units import read_quantity, read_reading


def read_nameplate(draft: Draft, setups: Mapping[str, Setup]) -> Nameplate | None:
    """Rated current, and the setup in which the machine takes it; None if there is none, or it cannot be read."""
    form = draft.form.nameplate
    if form is None:
        return None
    with draft.noting("nameplate", "setup"):
        _known_setup(form.setup, setups)
    amps = draft.tried(("nameplate", "current"), lambda: read_quantity(form.current, "A"))
    return None if amps is None else Nameplate(amps, form.setup)


def read_paper_readings(draft: Draft, setups: Mapping[str, Setup]) -> tuple[PaperReading, ...]:
    """The paper's table of readings; what cannot be read is noted and left out."""
    rows = [_row(draft, name, form, setups) for name, form in draft.form.readings.items()]
    return tuple(row for row in rows if row is not None)


def _row(draft: Draft, name: str, form: PaperReadingForm, setups: Mapping[str, Setup]) -> PaperReading | None:
    path = ("readings", name)
    with draft.noting(*path, "setup"):
        _known_setup(form.setup, setups)
    if form.mode not in MODES:
        draft.note((*path, "mode"), f"{quoted(form.mode)} is no setting of a meter.", did_you_mean(form.mode, MODES))
        return None
    mode = form.mode
    points = draft.tried((*path, "between"), lambda: _two(draft, form.between))
    least = draft.tried((*path, "least"), lambda: read_reading(form.least, mode))
    most = draft.tried((*path, "most"), lambda: read_reading(form.most, mode))
    if points is None or least is None or most is None:
        return None
    if least > most:
        what = f"{quoted(name)} has its limits the wrong way round."
        draft.note((*path, "least"), what, "Write the lower as `least`.")
    return PaperReading(name, points, mode, form.setup, (least, most))


def _two(draft: Draft, between: list[str]) -> tuple[str, str]:
    if len(between) != 2:
        raise InputError("A reading is between two points.", "Write both, as in [heater.1, heater.2].")
    return draft.point(between[0]), draft.point(between[1])


def _known_setup(name: str, setups: Mapping[str, Setup]) -> None:
    if name not in setups:
        raise InputError(f"There is no setup {quoted(name)}.", did_you_mean(name, setups) or "Add it to `setups`.")
