"""The `halfsplit` command: reads what is typed, asks the rooms below, prints. No arithmetic."""

from halfsplit.cli.app import main

__all__ = ["main"]
