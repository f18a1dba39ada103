"""Things that open and close: hand switches, timers, thermostats, one-shot cut-offs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from halfsplit.circuit import NEVER, NO, YES, Branch, Condition, Drive, Patch, Threshold
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import (
    CONTACT_OHM,
    Element,
    FaultForm,
    Kind,
    Stamp,
    Surroundings,
    burnt_contact,
    closed_patch,
    open_patch,
)

_BIAS_SHARE = 0.6
_DRIFT_C = 25.0 / 1.8
"""A thermostat that has drifted is off by 25 °F (common practice, from memory)."""
_DRIFT_RATE = 0.5
_BIAS_WARM_UP_S = 120.0


def _switch(part: PartValues, around: Surroundings) -> Stamp:
    """Contacts, each closed in the positions written for it."""
    branches, elements, terminals = [], [], []
    faults: list[FaultForm] = []
    for contact in part.contacts("contacts"):
        name, a, b = part.branch(contact.name), part.point(contact.a), part.point(contact.b)
        branches.append(Branch(name, a, b, CONTACT_OHM, condition=around.read_state(contact.phrase)))
        faults += _contact_faults(contact.name, name, (contact.a, contact.b))
        elements.append(Element("contact", a, b, name))
        terminals += [contact.a, contact.b]
    return Stamp(
        tuple(branches), faults=tuple(faults), elements=tuple(elements), terminals=tuple(dict.fromkeys(terminals))
    )


def _contact_faults(contact: str, branch: str, ends: tuple[str, str]) -> tuple[FaultForm, ...]:
    return (
        FaultForm(f"{contact}-open", f"does not close its contact {contact}", 7.0, open_patch(branch)),
        FaultForm(f"{contact}-welded", f"does not open its contact {contact}", 1.5, closed_patch(branch)),
        *burnt_contact(f"{contact}-burnt", f"has burnt its contact {contact}", branch, ends),
    )


def _cooler_than(part: PartValues, around: Surroundings, limit: float, *, cooler: bool = True) -> Condition:
    """Holds while the place is below `limit` °C (or at or above it)."""
    setting, degrees = around.temperature(part.name("place"))
    allowed = frozenset(position for position, degree in degrees.items() if (degree < limit) == cooler)
    return (((setting, allowed),),) if allowed else NEVER


def _thermostat(part: PartValues, around: Surroundings) -> Stamp:
    """One contact that opens on rise at `opens at`, or closes on rise at `closes at`."""
    if part.has("opens at") == part.has("closes at"):
        what = f"{quoted(part.part)} needs one of `opens at` and `closes at`."
        raise InputError(what, "Give the temperature printed on it.")
    opens = part.has("opens at")
    limit = part.number("opens at" if opens else "closes at")
    drift = _Drift(part, around, "opens" if opens else "closes")
    condition = drift.condition(lambda off: _cooler_than(part, around, limit + off, cooler=opens))
    made = _one_contact(part, "thermostat", condition, (*_thermostat_faults(part), *drift.faults(limit)))
    return replace(made, variables=drift.variables())


def _thermostat_faults(part: PartValues) -> tuple[FaultForm, ...]:
    contact = part.branch("1-2")
    return (
        FaultForm("open", "does not close", 8.0, open_patch(contact)),
        FaultForm("welded", "does not open", 3.0, closed_patch(contact)),
        *burnt_contact("burnt", "has burnt its contact", contact, ("1", "2")),
    )


@dataclass(frozen=True, slots=True)
class _Drift:
    """A thermostat that moves at another temperature than is printed on it: a variable that a fault pins.

    Only where that changes what the contact does in some position of its place is it a fault of the sheet.
    """

    part: PartValues
    around: Surroundings
    moves: str

    @property
    def _variable(self) -> str:
        return self.part.branch("drift")

    def _seen(self, *limits: float) -> tuple[str, ...]:
        """Which way it may have drifted so that it shows, at any of its limits."""
        _, degrees = self.around.temperature(self.part.name("place"))
        return tuple(
            word
            for word, off in _DRIFTED.items()
            if any((degree < limit) != (degree < limit + off) for degree in degrees.values() for limit in limits)
        )

    def condition(self, at: Callable[[float], Condition]) -> Condition:
        """A condition with the drift in it, from the condition at so many °C more."""
        return tuple(
            (*alternative, (self._variable, frozenset({word})))
            for word, off in {_TRUE: 0.0, **_DRIFTED}.items()
            for alternative in at(off)
        )

    def variables(self) -> dict[str, tuple[str, ...]]:
        """The variable; it stands even where no drift shows, as conditions ask for it."""
        return {self._variable: (_TRUE, *_DRIFTED)}

    def faults(self, *limits: float) -> tuple[FaultForm, ...]:
        """One fault for each way that shows."""
        return tuple(
            FaultForm(
                f"{self.moves}-{word}",
                f"{self.moves} some 25 °F too {word}",
                _DRIFT_RATE,
                (Patch("pin", self._variable, position=word),),
            )
            for word in self._seen(*limits)
        )


_TRUE = "true"
_DRIFTED = {"early": -_DRIFT_C, "late": _DRIFT_C}


def _cut_off(part: PartValues, around: Surroundings) -> Stamp:
    """A one-shot thermal link: once open it stays open."""
    condition = _cooler_than(part, around, part.number("opens at"))
    fault = FaultForm(
        "open",
        "has opened, so something let it get too hot",
        40.0,
        open_patch(part.branch("1-2")),
        f"change the {part.title}, and find out first what let it get too hot (air flow, thermostat)",
    )
    return _one_contact(part, "cut-off", condition, (fault,))


def _one_contact(part: PartValues, symbol: str, condition: Condition, faults: tuple[FaultForm, ...]) -> Stamp:
    contact, a, b = part.branch("1-2"), part.point("1"), part.point("2")
    branch = Branch(contact, a, b, CONTACT_OHM, condition=condition)
    return Stamp((branch,), faults=faults, elements=(Element(symbol, a, b, contact),), terminals=("1", "2"))


def _biased_thermostat(part: PartValues, around: Surroundings) -> Stamp:
    """A thermostat with a small heater beside it: while that has current, it opens at a lower temperature."""
    biased, bias = part.branch("biased"), part.branch("bias")
    if part.number("biased opens at") >= part.number("opens at"):
        what = f"{quoted(part.part)} opens no cooler with its bias heater on than off."
        raise InputError(what, "`biased opens at` is the lower temperature.")
    limits = part.number("opens at"), part.number("biased opens at")
    drift = _Drift(part, around, "opens")

    def standing(off: float) -> Condition:
        return tuple(
            (*alternative, (biased, frozenset({position})))
            for position, limit in zip((NO, YES), limits, strict=True)
            for alternative in _cooler_than(part, around, limit + off)
        )

    condition = drift.condition(standing)
    contact = _one_contact(part, "thermostat", condition, ())
    heater = Branch(bias, part.point("3"), part.point("4"), part.number("bias heater"), tolerance=0.05)
    warms = Threshold(bias, "amps", _BIAS_SHARE * part.number("bias volts") / part.number("bias heater"))
    faults = (
        FaultForm("open", "does not close", 12.0, open_patch(part.branch("1-2"))),
        FaultForm("welded", "does not open", 6.0, closed_patch(part.branch("1-2"))),
        FaultForm("bias-open", "has an open bias heater", 3.0, open_patch(bias)),
        *burnt_contact("burnt", "has burnt its contact 1-2", part.branch("1-2"), ("1", "2")),
        *drift.faults(*limits),
    )
    return Stamp(
        (*contact.branches, heater),
        drives=(Drive(biased, ((warms,),), (warms,), _BIAS_WARM_UP_S),),
        variables=drift.variables(),
        faults=faults,
        elements=(*contact.elements, Element("resistor", part.point("3"), part.point("4"), bias)),
        terminals=("1", "2", "3", "4"),
    )


_PLACE = Attribute("place", "place", "Where it sits: one of `temperatures`.")
_OPENS = Attribute("opens at", "temperature", "Opens when its place reaches this.")
KINDS = (
    Kind(
        "switch",
        "Contacts moved by a setting or a mechanical part; its terminals are those of its contacts.",
        (
            Attribute(
                "contacts", "contacts", "`A-B: setting position or position` for each contact: when it is closed."
            ),
        ),
        _switch,
    ),
    Kind(
        "thermostat",
        "One contact 1-2 that moves with temperature; give one of `opens at` and `closes at`.",
        (
            Attribute("opens at", "temperature", "Opens when its place reaches this.", optional=True),
            Attribute("closes at", "temperature", "Closes when its place reaches this.", optional=True),
            _PLACE,
        ),
        _thermostat,
    ),
    Kind("thermal cut-off", "One-shot link 1-2: once open it stays open.", (_OPENS, _PLACE), _cut_off),
    Kind(
        "biased thermostat",
        "Contact 1-2 with a bias heater 3-4 that lowers its temperature.",
        (
            _OPENS,
            Attribute("biased opens at", "temperature", "Opens at this while its bias heater is warm."),
            Attribute("bias heater", "ohms", "Resistance of the bias heater."),
            Attribute("bias volts", "volts", "Voltage the bias heater works at.", 120.0),
            _PLACE,
        ),
        _biased_thermostat,
    ),
)
