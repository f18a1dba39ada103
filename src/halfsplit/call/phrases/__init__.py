"""Everyday words to functions of a sheet, with shares. Wordings are data: see docs/phrases.md."""

from halfsplit.call.phrases.hear import hear
from halfsplit.call.phrases.values import Heard, Hedge, Phrase, Question, Shares, Statement

__all__ = ["Heard", "Hedge", "Phrase", "Question", "Shares", "Statement", "hear"]
