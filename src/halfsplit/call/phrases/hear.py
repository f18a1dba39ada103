"""A customer's words to functions of a sheet, with shares; and what to ask where the words do not say enough.

What is not understood is asked about, never guessed. The shares say what the words mean, not whether the customer is
right: that is weighed where evidence is weighed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from halfsplit.call.phrases.items import Item, clauses, scan
from halfsplit.call.phrases.lexicon import Lexicon, lexicon
from halfsplit.call.phrases.statements import Statements
from halfsplit.call.phrases.values import Heard, Phrase, Question, Shares, Statement
from halfsplit.call.phrases.words import split
from halfsplit.trade import LEVELS, Level

MOST_CHARACTERS = 2000
"""More is a letter, not a complaint: what comes after is not read, and that is said."""
_SURE_ENOUGH = 0.85


def hear(text: str, functions_known: Mapping[str, str]) -> Heard:
    """What a customer's words say of a machine.

    Args:
        text: The words, English, as said or typed.
        functions_known: The sheet's functions: name to its question (`ask`).

    Returns:
        What was understood, in functions with shares of levels; what was not; and what to ask.
    """
    known = lexicon()
    read = text[:MOST_CHARACTERS]
    words, slips = split(read, known.vocabulary)
    items = scan(words, known)
    statements = Statements(known)
    statements.read(clauses(items))
    phrases = tuple(_phrase(one, read, known, functions_known) for one in statements.said)
    functions = _together(phrases)
    unclear = _pieces(statements.unclear, items, read) + ((text[MOST_CHARACTERS:],) if len(text) > len(read) else ())
    asked = _to_ask(phrases, functions, known, functions_known, bool(unclear) or not phrases)
    questions = tuple(Question(name, functions_known[name]) for name in asked)
    cautions = tuple(dict.fromkeys(_cautions(statements.said, known)))
    return Heard(text, phrases, functions, unclear, questions, cautions, slips)


def _phrase(said: Statement, text: str, known: Lexicon, functions: Mapping[str, str]) -> Phrase:
    concept = known.concepts[said.concept]
    tied = concept
    while tied.otherwise and not any(function in functions for _, function in tied.ties):
        tied = known.concepts[tied.otherwise]
    # A sign of a fault is that sign wherever it shows, unless the table knows better.
    place = "" if concept.sign and all(where != said.where for where, _ in tied.ties) else said.where
    means = {
        function: _through(said.shares, tie)
        for (where, function), tie in tied.ties.items()
        if where == place and function in functions and said.level in tie
    }
    return Phrase(text[said.span[0] : said.span[1]], concept.says, said, means)


def _through(shares: Shares, tie: Mapping[Level, Shares]) -> Shares:
    """Shares of a concept's levels to shares of a function's; what the tie leaves out is left out of both."""
    made = dict.fromkeys(LEVELS, 0.0)
    for level, share in shares.items():
        for follows, part in tie.get(level, {}).items():
            made[follows] += share * part
    total = sum(made.values())
    return {level: share / total for level, share in made.items() if share}


def _together(phrases: Sequence[Phrase]) -> dict[str, Shares]:
    """One set of shares for each function: what is said outright counts before what is implied."""
    names = dict.fromkeys(name for phrase in phrases for name in phrase.means)
    return {name: _merged([phrase for phrase in phrases if name in phrase.means], name) for name in names}


def _merged(phrases: Sequence[Phrase], function: str) -> Shares:
    """The product where phrases agree on anything, their mean where they contradict each other."""
    outright = [phrase for phrase in phrases if not phrase.said.implied] or list(phrases)
    each = list(dict.fromkeys(tuple(sorted(phrase.means[function].items())) for phrase in outright))
    tables = [dict(one) for one in each]
    product = dict.fromkeys(LEVELS, 1.0)
    for table in tables:
        product = {level: share * table.get(level, 0.0) for level, share in product.items()}
    total = sum(product.values())
    if total < 0.2 ** (len(tables) - 1):
        product = {level: sum(table.get(level, 0.0) for table in tables) for level in LEVELS}
        total = sum(product.values())
    return {level: share / total for level, share in product.items() if share}


def _pieces(unclear: Sequence[Item], items: Sequence[Item], text: str) -> tuple[str, ...]:
    """The words not understood, neighbours together, as they stand in the text."""
    wanted = {id(item) for item in unclear}
    beside = [item for item in items if item.kind not in ("small", "prep", "not", "to", "only") or id(item) in wanted]
    runs = [list(run) for asked, run in groupby(beside, lambda item: id(item) in wanted) if asked]
    return tuple(dict.fromkeys(text[run[0].span[0] : run[-1].span[1]] for run in runs))


def _to_ask(
    phrases: Sequence[Phrase],
    functions: Mapping[str, Shares],
    known: Lexicon,
    functions_known: Mapping[str, str],
    lost: bool,
) -> list[str]:
    """Functions to ask about: those the words leave open, then, if too little was said, what a machine does first."""
    open_ = [name for name, shares in functions.items() if max(shares.values()) < _SURE_ENOUGH]
    untied = [phrase.said for phrase in phrases if not phrase.means and not phrase.said.implied]
    concepts = [name for one in untied for name in known.concepts[one.concept].ask or (one.concept,)]
    if lost and not functions:
        concepts += known.concepts["works"].ask
    wide = [name for concept in concepts for name in _everyday(concept, known) if name in functions_known]
    return [name for name in dict.fromkeys([*open_, *wide]) if name in open_ or name not in functions]


def _everyday(concept: str, known: Lexicon) -> Iterable[str]:
    return (function for where, function in known.concepts[concept].ties if not where)


def _cautions(said: Sequence[Statement], known: Lexicon) -> Iterable[str]:
    return (
        known.concepts[one.concept].caution
        for one in said
        if one.level != "none" and known.concepts[one.concept].caution
    )
