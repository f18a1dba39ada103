"""The catalogue of part kinds. A new kind is one entry in one module of this folder; nothing else changes."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

from halfsplit.techsheet.kinds.base import Kind


@cache
def catalogue() -> dict[str, Kind]:
    """Every kind by name, found in the modules of this folder."""
    forms = ("attribute", "base", "boardparts", "boardwords")
    modules = sorted(module.name for module in pkgutil.iter_modules(__path__) if module.name not in forms)
    loaded = [importlib.import_module(f"{__name__}.{name}") for name in modules]
    return {kind.name: kind for module in loaded for kind in module.KINDS}
