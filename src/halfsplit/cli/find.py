"""`halfsplit find`: the whole path in a terminal, one answer after the other, each stored before the next question.

The records are the desk's: a call begun here goes on there, and the other way round.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, cast

import typer

from halfsplit.cli.cases import advice_json, check_json, check_lines, suspect_lines
from halfsplit.cli.output import AsJson, show, show_json
from halfsplit.errors import HalfsplitError, InputError

if TYPE_CHECKING:
    from halfsplit.call import Advice, Case
    from halfsplit.desk.records.entries import What
    from halfsplit.desk.records.values import CallRecord
    from halfsplit.techsheet import Machine
    from halfsplit.trade import Level, Look, Measure, Mode, Reading, Seen

_PIECES = 3
_YES_NO = {"yes": "normal", "y": "normal", "no": "none", "n": "none", "too": "too much"}
_HELP = """\
Answer the check with what the meter shows (118, OL, 0.4 ohm) or what you see (none, weak, normal, too much; yes, no).
Or: skip | cannot reach | back (take back the last answer) | suspects | wiring | stop
Or add anything at any time:
  seen FUNCTION: LEVEL           as in  seen heat: none
  changed THING                  as in  changed heater
  read A to B, MODE, SETUP: X    as in  read TB.L1 to TB.L2, volts, running: 238
  read watts, SETUP: X           as in  read watts, running: 5.2 kW"""


def add_to(app: typer.Typer) -> None:
    """Add this command."""
    app.command()(find)


def find(
    sheet: Annotated[str, typer.Argument(metavar="[SHEET]", help="A built-in sheet by name, or a sheet file.")] = "",
    call: Annotated[int, typer.Option("--call", min=0, help="Go on with this call.")] = 0,
    as_json: AsJson = False,
) -> None:
    """Find the fault step by step: answer one check after the other until a part is left."""
    from halfsplit.desk.start import prepare

    if not sheet and not call:
        what = "Neither a sheet nor a call is named."
        raise InputError(what, "Write `halfsplit find dryer` or `halfsplit find --call 1`.")
    prepare()
    from halfsplit.desk.records import store  # needs what `prepare` has made ready

    record = store.find_call(call) if call else _start(sheet, ask=not as_json)
    if as_json:
        _print_json(record)
    else:
        _Talk(record).run()


def _print_json(record: CallRecord) -> None:
    from halfsplit.call import advise
    from halfsplit.desk.records import store
    from halfsplit.desk.records.values import case_of

    advice = advise(record.machine, case_of(store.entries(record.number)))
    show_json({"call": record.number, **advice_json(record.sheet, advice), "next": check_json(advice.next)})


def _start(sheet: str, *, ask: bool) -> CallRecord:
    from halfsplit.desk.records import store
    from halfsplit.techsheet import machine_from_text, sheet_text

    text, file = sheet_text(sheet)
    machine = machine_from_text(text, file)
    settings, complaint = {}, ""
    if ask:
        show(machine.title)
        for name in machine.per_call:
            settings[name] = _choose(f"{name}:", list(machine.network.variables[name]), default=0)
        says = {entry.says: name for name, entry in machine.complaints.items()}
        complaint = says.get(_choose("What does the customer say?", [*says, "something else"], default=len(says)), "")
    return store.start_call(text, file, settings, complaint)


def _choose(question: str, choices: list[str], default: int) -> str:
    show(question)
    for number, choice in enumerate(choices, 1):
        show(f"  {number}  {choice}")
    while True:
        typed = _ask(f"number (Enter for {default + 1}): ").strip()
        if not typed:
            return choices[default]
        if typed == "stop":  # or the input has ended: nobody is there to type a number
            show("No call was started.")
            raise typer.Exit
        if typed.isdigit() and 1 <= int(typed) <= len(choices):
            return choices[int(typed) - 1]
        same = [choice for choice in choices if choice.casefold().rstrip(".") == typed.casefold().rstrip(".")]
        if same:
            return same[0]
        show(f"Type a number from 1 to {len(choices)}.")


def _ask(prompt: str) -> str:
    """One line typed; the end of input is `stop`."""
    try:
        return input(prompt)
    except EOFError:
        show("")
        return "stop"


class _Talk:
    """One sitting with one call. Nothing is kept here that is not in the records."""

    def __init__(self, record: CallRecord) -> None:
        self.record, self.machine = record, record.machine
        self.words: dict[str, Callable[[], None]] = {
            "skip": self._skip,
            "cannot reach": self._cannot_reach,
            "back": self._back,
            "suspects": self._suspects,
            "wiring": self._wiring,
            "help": lambda: show(_HELP),
        }

    def run(self) -> None:
        show(f"Call {self.record.number}. Type help for what you can type.")
        self._show_where_it_stands()
        while (typed := " ".join(_ask("> ").split())) not in ("stop", "quit", "exit"):
            try:
                self._take(typed)
            except HalfsplitError as error:
                show(str(error))
        show(f"Kept. Go on with: halfsplit find --call {self.record.number}")

    def _take(self, typed: str) -> None:
        if typed in self.words:
            self.words[typed]()
        elif typed.startswith("seen "):
            self._add(seen_from(self.machine, typed.removeprefix("seen ")))
        elif typed.startswith("read "):
            self._add(reading_from(self.machine, typed.removeprefix("read ")))
        elif typed.startswith("changed "):
            self._add(self._changed(typed.removeprefix("changed ")))
        elif typed:
            self._add(self._answer(typed))

    def case(self) -> Case:
        """The case as the records have it now."""
        from halfsplit.desk.records import store
        from halfsplit.desk.records.values import case_of

        return case_of(store.entries(self.record.number))

    def advice(self) -> Advice:
        """What to do now."""
        from halfsplit.call import advise

        return advise(self.machine, self.case())

    def _show_where_it_stands(self) -> None:
        from halfsplit.desk.records import store

        advice = self.advice()
        show("\n".join(check_lines(advice)))
        last = max((entry.number for entry in store.entries(self.record.number)), default=0)
        store.remember_standing(self.record.number, advice.ending, advice.says, last)

    def _add(self, what: What) -> None:
        from halfsplit.call import accept
        from halfsplit.desk.records import store
        from halfsplit.trade import Reading, Seen

        if isinstance(what, Seen | Reading):
            accept(self.machine, self.case(), what)
        store.add_entry(self.record.number, what)
        self._show_where_it_stands()

    def _action(self) -> Look | Measure:
        check = self.advice().next
        if check is None:
            raise InputError("No check is waiting.", "Add what you see with `seen …` or `read …`, or type back.")
        return check.action

    def _answer(self, typed: str) -> What:
        from halfsplit.trade import Look, Reading, Seen
        from halfsplit.units import read_reading

        action = self._action()
        if isinstance(action, Look):
            return Seen(action.function, level_from(typed), "technician", action.setup)
        return Reading(action.points, action.mode, action.setup, read_reading(typed, action.mode))

    def _changed(self, thing: str) -> What:
        from halfsplit.call import engine_for
        from halfsplit.desk.records.entries import Changed

        case = self.case().change(thing)
        engine_for(self.machine, case).left_of(case.changed)
        return Changed(thing)

    def _skip(self) -> None:
        from halfsplit.desk.records.entries import Skipped

        self._add(Skipped(self._action()))

    def _cannot_reach(self) -> None:
        from halfsplit.call import hardest_to_reach
        from halfsplit.desk.records.entries import CannotReach, Skipped
        from halfsplit.trade import Look

        action = self._action()
        reach = Skipped(action) if isinstance(action, Look) else CannotReach(hardest_to_reach(self.machine, action))
        self._add(reach)

    def _back(self) -> None:
        from halfsplit.desk.records import store
        from halfsplit.desk.records.entries import SetTo, TakenBack

        entries = store.entries(self.record.number)
        standing = [entry for entry in entries if entry.stands and not isinstance(entry.what, SetTo | TakenBack)]
        if not standing:
            raise InputError("There is nothing to take back.")
        self._add(TakenBack(standing[-1].number))

    def _suspects(self) -> None:
        show("\n".join(suspect_lines(self.advice())))

    def _wiring(self) -> None:
        from halfsplit.drawing import describe_rungs, standing_in
        from halfsplit.trade import Look

        action = self._action()
        if isinstance(action, Look):
            raise InputError("This check has no points on the wiring.")
        standing = standing_in(self.machine.setups[action.setup])
        show("\n".join(describe_rungs(self.machine, action.points, standing)))


def level_from(typed: str) -> Level:
    """A level as typed; yes is normal and no is none.

    Raises:
        InputError: Another word.
    """
    from halfsplit.call import one_of
    from halfsplit.trade import LEVELS

    word = typed.lower()
    return cast("Level", one_of(_YES_NO.get(word, word), LEVELS, "level"))


def seen_from(machine: Machine, typed: str) -> Seen:
    """`FUNCTION: LEVEL`, as seen by the technician in the function's own setup.

    Raises:
        InputError: Another form, or an unknown function or level.
    """
    from halfsplit.techsheet import did_you_mean
    from halfsplit.trade import Seen

    name, colon, level = typed.rpartition(":")
    if not colon:
        raise InputError(f"{typed!r} has no level.", "Write it as in: seen heat: none")
    function = machine.functions.get(name.strip())
    if function is None:
        raise InputError(f"There is no function {name.strip()!r}.", did_you_mean(name.strip(), machine.functions))
    return Seen(function.name, level_from(level.strip()), "technician", function.setup)


def reading_from(machine: Machine, typed: str) -> Reading:
    """`A to B, MODE, SETUP: X`, or for watts at the plug `watts, SETUP: X`.

    Raises:
        InputError: Another form, or an unknown point, mode or setup, or no reading.
    """
    from halfsplit.call import one_of, points_for
    from halfsplit.techsheet import setup_of
    from halfsplit.trade import MODES, Reading
    from halfsplit.units import METER_MODES, read_reading

    head, colon, value = typed.rpartition(":")
    at_plug = head.partition(",")[0].strip() in [str(mode) for mode in MODES if METER_MODES[mode].where == "plug"]
    pieces = [piece.strip() for piece in (f"plug, {head}" if at_plug else head).split(",", 2)]
    if not colon or len(pieces) != _PIECES or not (at_plug or " to " in pieces[0]):
        raise InputError(f"{typed!r} is not a reading.", "Write it as in: read TB.L1 to TB.L2, volts, running: 238")
    mode = cast("Mode", one_of(pieces[1], MODES, "meter mode"))
    points = points_for(machine, mode, pieces[0].split(" to "))
    return Reading(points, mode, setup_of(machine, pieces[2]).name, read_reading(value, mode))
