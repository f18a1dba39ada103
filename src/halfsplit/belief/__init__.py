"""Bayes over any table of likelihoods; never sees a circuit."""
