"""A complaint compiled into a decision tree: one engine at every node, bounded, honest about where it stops."""

import json
import sys
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest

from halfsplit.call import Case, Node, action_of, advise, compile_tree, told
from halfsplit.cli import main
from halfsplit.errors import InputError
from halfsplit.techsheet import load_machine

DRYER = load_machine("dryer")


@cache
def _tree(complaint: str, depth: int = 3, most: int = 6) -> Node:
    return compile_tree(DRYER, complaint, depth, most)


def _nodes(node: Node) -> Iterator[Node]:
    yield node
    for branch in node.branches:
        yield from _nodes(branch.then)


def _depth(node: Node) -> int:
    return 1 + max(_depth(branch.then) for branch in node.branches) if node.branches else 0


@pytest.mark.parametrize("complaint", ["no heat", "will not start", "hums"])
def test_the_first_check_is_the_one_proposed_for_the_complaint(complaint: str) -> None:
    assert _tree(complaint, 1, 1).check == advise(DRYER, Case().plus(*told(DRYER, complaint))).next


def test_every_node_says_what_the_engine_says_after_those_answers() -> None:
    def walk(node: Node, case: Case) -> int:
        advice = advise(DRYER, case)
        if advice.next is not None and advice.next.title.endswith("once more"):  # not on paper
            case = case.skip(advice.next.action)
            advice = advise(DRYER, case)
        assert (node.ending, node.says, node.blamed) == (advice.ending, advice.says, advice.blamed)
        if node.check is None:
            assert node.cut_off == (advice.next is not None)
            return 1
        assert node.check == advice.next
        answers = zip(node.branches, node.check.outcomes, strict=True)
        return 1 + sum(walk(branch.then, case.plus(outcome.item)) for branch, outcome in answers)

    assert walk(_tree("no heat"), Case().plus(*told(DRYER, "no heat"))) > 10


def test_it_is_no_larger_and_no_deeper_than_asked() -> None:
    tree = _tree("no heat")
    assert sum(node.check is not None for node in _nodes(tree)) == 6
    assert _depth(tree) <= 3
    assert _depth(_tree("no heat", 1, 50)) == 1


def test_branches_that_are_cut_off_say_so_and_nothing_else_does() -> None:
    leaves = [node for node in _nodes(_tree("no heat")) if node.check is None]
    assert {node.cut_off for node in leaves} == {True, False}
    assert all(node.cut_off == (node.ending == "keep looking") for node in leaves)


def test_the_likeliest_branches_are_worked_out_first() -> None:
    cut, made = [], []
    for node in _nodes(_tree("no heat", 20, 6)):
        for branch in node.branches:
            if branch.then.check is not None:
                made.append(branch.reach)
            elif branch.then.cut_off:
                cut.append(branch.reach)
    assert min(made) >= max(cut)


def test_chances_add_up_and_reach_is_their_product() -> None:
    def walk(node: Node, reach: float) -> None:
        if node.branches:
            assert sum(branch.chance for branch in node.branches) + node.rare == pytest.approx(1.0)
        for branch in node.branches:
            assert branch.reach == pytest.approx(reach * branch.chance)
            walk(branch.then, branch.reach)

    walk(_tree("no heat"), 1.0)


def test_what_is_fixed_on_a_call_counts_at_every_node() -> None:
    (setting,) = DRYER.per_call
    other = DRYER.network.variables[setting][1]
    case = Case(fixed=((setting, other),))
    tree = compile_tree(DRYER, "dead", 2, 2, case)
    assert tree.check == advise(DRYER, case.plus(*told(DRYER, "dead"))).next
    assert tree != _tree("dead", 2, 2)


def test_every_outcome_that_the_dryer_offers_can_be_an_answer() -> None:
    checks = [node.check for node in _nodes(_tree("dead", 4, 8)) if node.check]
    items = [(check, view.item) for check in checks for view in check.outcomes]
    assert len(items) > 10
    assert all(action_of(item) == check.action for check, item in items)


def test_a_complaint_that_is_not_on_the_sheet_is_one_sentence() -> None:
    with pytest.raises(InputError, match="'no heet' is not a complaint of this sheet") as caught:
        compile_tree(DRYER, "no heet")
    assert "no heat" in caught.value.right


def _run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    monkeypatch.setattr(sys, "argv", ["halfsplit", "tree", "dryer", "no heat", "--depth", "2", "--most", "3", *words])
    with pytest.raises(SystemExit) as ended:
        main()
    assert not ended.value.code
    return capsys.readouterr().out


def test_json_has_every_node(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    found = json.loads(_run(monkeypatch, capsys, "--json"))
    assert list(found) == ["sheet", "complaint", "says", "fixed", "depth", "most", "tree"]

    def count(node: dict[str, Any]) -> int:
        keys = ["check", "ending", "says", "blamed", "mend", "cut_off", "rare", "branches"]
        assert list(node) == keys
        return 1 + sum(count(branch["then"]) for branch in node["branches"])

    tree = _tree("no heat", 2, 3)
    assert count(found["tree"]) == len(list(_nodes(tree)))
    assert tree.check is not None
    assert found["tree"]["check"]["title"] == tree.check.title
    assert found["tree"]["check"]["caution"] == tree.check.caution


def test_text_is_indented_and_warns_at_every_check(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    lines = _run(monkeypatch, capsys).splitlines()
    tree = _tree("no heat", 2, 3)
    checks = [node.check for node in _nodes(tree) if node.check is not None]
    assert sum(line.strip().startswith(("CAUTION:", "DANGER:")) for line in lines) == len(checks)
    assert checks[0].title in lines
    assert f"    {checks[1].title}" in lines
    assert sum("cut off here" in line for line in lines) == sum(node.cut_off for node in _nodes(tree))
