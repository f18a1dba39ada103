"""Bayes over any table of likelihoods: priors from rates, evidence with mistakes, entropy. Never sees a circuit."""

from halfsplit.belief.prior import Prior, make_prior
from halfsplit.belief.weigh import Belief, Item, entropy, expected_entropy, item_likelihood, weigh

__all__ = ["Belief", "Item", "Prior", "entropy", "expected_entropy", "item_likelihood", "make_prior", "weigh"]
