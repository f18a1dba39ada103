"""Links between faults as a sheet writes them, and slips in them."""

import pytest

from halfsplit.call.engine import Engine
from halfsplit.techsheet import Machine, read_sheet, sheet_text

TEXT, _ = sheet_text("dryer")


def _with(link: str) -> tuple[Machine | None, list[str]]:
    machine, problems = read_sheet(f"{TEXT}\nlinked:\n  - {link}\n", "linked.yaml")
    return machine, [f"{problem.what} {problem.right}".strip() for problem in problems]


def test_a_link_raises_its_pair_above_chance() -> None:
    plain, _ = read_sheet(TEXT, "plain.yaml")
    linked, problems = _with("vent:blocked -> thermal cut-off:open, 0.2")
    assert problems == []
    assert plain is not None
    assert linked is not None
    before, after = (_share(machine) for machine in (plain, linked))
    assert after > 5 * before


def _share(machine: Machine) -> float:
    prior = Engine(machine).prior
    pair = {"vent:blocked", "thermal cut-off:open"}
    return next(float(share) for it, share in zip(prior.suspects, prior.shares, strict=True) if set(it.faults) == pair)


@pytest.mark.parametrize(
    ("link", "said"),
    [
        ("vent:blocked -> thermal cutoff:open, 0.2", "There is no fault 'thermal cutoff:open'."),
        ("vent:blocked and thermal cut-off:open", "'vent:blocked and thermal cut-off:open' is not a link."),
        ("vent:blocked -> thermal cut-off:open, 0.0", "'vent:blocked -> thermal cut-off:open, 0.0' is not a link."),
        ("heater:open -> heater:grounded, 0.2", "links two faults of one thing."),
    ],
)
def test_a_slip_in_a_link_is_told(link: str, said: str) -> None:
    machine, problems = _with(link)
    assert machine is None
    (problem,) = problems
    assert said in problem
