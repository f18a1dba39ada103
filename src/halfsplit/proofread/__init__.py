"""What paper lets through: doubts about a sheet that reads well and whose wiring does not do what it says.

A mistake keeps a sheet from being used; a doubt does not. Rules live in `rules`, one function each.
"""

from halfsplit.proofread.doubts import doubts

__all__ = ["doubts"]
