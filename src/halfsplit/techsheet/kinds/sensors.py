"""Temperature sensors: a resistance that goes with the heat at their place, one branch for each of its positions.

NTC thermistors by R = R25 · exp(B · (1/T - 1/298.15 K)), by Steinhart and Hart, or by a table between whose points ln R
is taken as straight over 1/T (common practice). Platinum by the Callendar-Van Dusen equation with the coefficients of
IEC 60751:2022.
No sensor is used outside its table or its equation's range: that is told, not stretched.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping

from halfsplit.circuit import NEVER, Branch, Patch, when
from halfsplit.errors import InputError, quoted
from halfsplit.techsheet.kinds.attribute import Attribute, PartValues
from halfsplit.techsheet.kinds.base import Element, FaultForm, Kind, Stamp, Surroundings, closed_patch, open_patch
from halfsplit.units import read_quantity, read_temperature, show

_ZERO_CELSIUS_K = 273.15
_A, _B, _C = 3.9083e-3, -5.775e-7, -4.183e-12
_PLATINUM_RANGE = (-200.0, 850.0)
_SHORT_OHM = 0.5
_DRIFT_SHARE = 0.5
_POINT = re.compile(r"(.+?[CF]) (.+)")
_BETA = re.compile(r"([0-9]{3,5}) ?K?")


def platinum_ohm(celsius: float, ohm_at_zero: float = 100.0) -> float:
    """Resistance of a platinum sensor, ohm, at a temperature in °C (IEC 60751:2022).

    Raises:
        InputError: Outside -200 to 850 °C.

    >>> round(platinum_ohm(100), 2), round(platinum_ohm(-50), 2)
    (138.51, 80.31)
    """
    low, high = _PLATINUM_RANGE
    if not low <= celsius <= high:
        raise InputError(f"A platinum sensor is not known at {celsius:g} °C.", f"It is from {low:g} to {high:g} °C.")
    below = _C * (celsius - 100.0) * celsius**3 if celsius < 0 else 0.0
    return ohm_at_zero * (1.0 + _A * celsius + _B * celsius**2 + below)


def ntc_ohm(celsius: float, ohm_at_25: float, beta: float) -> float:
    """Resistance of an NTC thermistor, ohm, by its B value in kelvin.

    It is a rule of thumb: off by some percent fifty degrees away from 25 °C.

    >>> round(ntc_ohm(25, 10_000, 3950)), round(ntc_ohm(100, 10_000, 3950))
    (10000, 698)
    """
    return ohm_at_25 * math.exp(beta * (1.0 / (celsius + _ZERO_CELSIUS_K) - 1.0 / (25.0 + _ZERO_CELSIUS_K)))


def table_ohm(celsius: float, table: Mapping[float, float]) -> float:
    """Resistance between two points of a table (°C to ohm), ln R straight over 1/T.

    Raises:
        InputError: Outside the table.

    >>> round(table_ohm(25, {0.0: 31_770, 25.0: 10_000, 50.0: 3_592}))
    10000
    """
    points = sorted(table)
    if not points[0] <= celsius <= points[-1]:
        raise InputError(
            f"{celsius:g} °C is outside the table ({points[0]:g} to {points[-1]:g} °C).", "Add a point to the table."
        )
    above = next(point for point in points[1:] if celsius <= point)
    below = points[points.index(above) - 1]
    here, low, high = (1.0 / (point + _ZERO_CELSIUS_K) for point in (celsius, below, above))
    share = (here - low) / (high - low)
    return math.exp((1.0 - share) * math.log(table[below]) + share * math.log(table[above]))


def read_table(text: str) -> dict[float, float]:
    """`32 °F 32.6 kΩ, 77 °F 10 kΩ` as °C to ohm.

    Raises:
        InputError: A piece cannot be read, stands twice, or there is only one.
    """
    table: dict[float, float] = {}
    for piece in text.split(", "):
        form = _POINT.fullmatch(piece.strip())
        if form is None:
            raise InputError(f"{quoted(piece)} is not a point of a table.", "Write it as in 77 °F 10 kΩ.")
        celsius = read_temperature(form.group(1))
        if celsius in table:
            raise InputError(f"{quoted(piece)} is a second point at that temperature.", "Keep one.")
        table[celsius] = read_quantity(form.group(2), "Ω")
    if len(table) < 2:
        raise InputError("A table needs two points or more.", "Write them as in 32 °F 32.6 kΩ, 77 °F 10 kΩ.")
    return table


def steinhart_ohm(celsius: float, factors: tuple[float, float, float]) -> float:
    """Resistance of an NTC thermistor by the equation of Steinhart and Hart (Deep-Sea Research 15, 1968), ohm.

    1/T = A + B ln R + C (ln R)³, solved for ln R, of which there is one for C above zero.

    >>> round(steinhart_ohm(25.0, (1.129148e-3, 2.34125e-4, 8.76741e-8)), -1)
    10000.0
    """
    first, second, third = factors
    half = (first - 1.0 / (celsius + _ZERO_CELSIUS_K)) / (2.0 * third)
    root = math.sqrt((second / (3.0 * third)) ** 3 + half**2)
    return math.exp(math.cbrt(root - half) - math.cbrt(root + half))


def read_factors(text: str) -> tuple[float, float, float]:
    """A, B and C of Steinhart and Hart.

    Raises:
        InputError: Not three numbers of the size they have, in order.
    """
    try:
        first, second, third = (float(piece) for piece in text.split(","))
    except ValueError:
        first = second = third = 0.0
    if not (1e-4 < first < 1e-2 and 1e-5 < second < 1e-3 and 1e-9 < third < 1e-5):
        right = "Write A, B and C as in 1.129148e-3, 2.34125e-4, 8.76741e-8."
        raise InputError(f"{quoted(text)} are not the three of Steinhart and Hart.", right)
    return first, second, third


_WAYS = ({"table"}, {"coefficients"}, {"resistance", "beta"})


def _thermistor(part: PartValues, around: Surroundings) -> Stamp:
    given = {key for way in _WAYS for key in way if part.has(key)}
    if not any(way <= given for way in _WAYS):
        right = "Give `table`, `coefficients`, or `resistance` at 25 °C with `beta`."
        raise InputError(f"{quoted(part.part)} does not say how it goes with the heat.", right)
    if given not in _WAYS:
        right = "Give the table, the coefficients, or the resistance with `beta`."
        raise InputError(f"{quoted(part.part)} says in two ways how it goes with the heat.", right)
    return _sensor(part, around, _law(part))


def _law(part: PartValues) -> Callable[[float], float]:
    """Resistance by temperature, in the way that the sheet gives it."""
    if part.has("table"):
        table = read_table(part.name("table"))
        return lambda celsius: table_ohm(celsius, table)
    if part.has("coefficients"):
        factors = read_factors(part.name("coefficients"))
        return lambda celsius: steinhart_ohm(celsius, factors)
    form = _BETA.fullmatch(part.name("beta"))
    if form is None:
        raise InputError(f"{quoted(part.name('beta'))} is not a B value.", "Write it as in 3950 K.")
    return lambda celsius: ntc_ohm(celsius, part.number("resistance"), float(form.group(1)))


def _platinum(part: PartValues, around: Surroundings) -> Stamp:
    return _sensor(part, around, lambda celsius: platinum_ohm(celsius, part.number("resistance")))


def _sensor(part: PartValues, around: Surroundings, ohm_at: Callable[[float], float]) -> Stamp:
    """A branch for each position of its place's setting, so that an ohmmeter finds it cold, warm or hot."""
    setting, degrees = around.temperature(part.name("place"))
    a, b, shorted = part.point("1"), part.point("2"), part.branch("shorted")
    branches = [
        Branch(part.branch(f"at {position}"), a, b, ohm_at(celsius), condition=when(setting, position), tolerance=0.03)
        for position, celsius in degrees.items()
    ]
    drifted = tuple(Patch("series", branch.name, _DRIFT_SHARE * branch.ohm) for branch in branches)
    cold = show(branches[0].ohm, "Ω")
    faults = (
        FaultForm("open", "is open", 8.0, open_patch(*(branch.name for branch in branches))),
        FaultForm("shorted", "is shorted", 3.0, closed_patch(shorted)),
        FaultForm("drifted", f"reads half too much (sound: {cold} at the start)", 4.0, drifted),
    )
    return Stamp(
        (*branches, Branch(shorted, a, b, _SHORT_OHM, condition=NEVER)),
        faults=faults,
        elements=(Element("resistor", a, b, branches[0].name),),
        terminals=("1", "2"),
    )


_PLACE = Attribute("place", "place", "Where it sits: one of `temperatures`.")
KINDS = (
    Kind(
        "thermistor",
        "NTC sensor 1-2 whose resistance falls with heat; give `table`, `coefficients`, or `resistance` with `beta`.",
        (
            Attribute("resistance", "ohms", "Its resistance at 25 °C.", optional=True),
            Attribute("beta", "name", "Its B value, as in 3950 K: some percent off far from 25 °C.", optional=True),
            Attribute("table", "name", "Points as in 32 °F 32.6 kΩ, 77 °F 10 kΩ.", optional=True),
            Attribute(
                "coefficients",
                "name",
                "A, B, C of Steinhart and Hart, as in 1.129148e-3, 2.34125e-4, 8.76741e-8.",
                optional=True,
            ),
            _PLACE,
        ),
        _thermistor,
    ),
    Kind(
        "platinum sensor",
        "Platinum sensor 1-2 after IEC 60751, as in ovens.",
        (Attribute("resistance", "ohms", "Its resistance at 0 °C: 100 Ω or 1 kΩ.", 1000.0), _PLACE),
        _platinum,
    ),
)
