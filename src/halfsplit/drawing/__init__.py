"""Wiring and charts as SVG, for telephone and paper alike."""
