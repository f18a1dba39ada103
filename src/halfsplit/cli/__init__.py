"""The halfsplit command; no arithmetic here."""
