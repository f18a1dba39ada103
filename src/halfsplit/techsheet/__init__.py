"""Sheets: YAML to a checked machine with every mistake named, the kinds of parts, and the built-in library."""

from halfsplit.techsheet.build import read_sheet
from halfsplit.techsheet.document import MOST_BYTES, Document, read_document
from halfsplit.techsheet.events import Path, Tree
from halfsplit.techsheet.find import (
    load_machine,
    machine_from_text,
    point_of,
    read_text_file,
    setup_of,
    sheet_text,
    steps_of,
    text_of,
)
from halfsplit.techsheet.fit import fit
from halfsplit.techsheet.form import Form
from halfsplit.techsheet.glossary import Meaning, meanings, meanings_of
from halfsplit.techsheet.kinds import catalogue
from halfsplit.techsheet.kinds.base import Cycle, Element, Shown
from halfsplit.techsheet.library import names as library_names
from halfsplit.techsheet.machine import Complaint, Fault, Function, Machine, Nameplate, PaperReading, Part, Wire, Zone
from halfsplit.techsheet.schema import sheet_schema
from halfsplit.techsheet.sections.crossed import wire_of
from halfsplit.techsheet.skeleton import FAMILIES, skeleton
from halfsplit.techsheet.words import COLOURS, LIFT, PUT_BACK, did_you_mean

__all__ = [
    "COLOURS",
    "FAMILIES",
    "LIFT",
    "MOST_BYTES",
    "PUT_BACK",
    "Complaint",
    "Cycle",
    "Document",
    "Element",
    "Fault",
    "Form",
    "Function",
    "Machine",
    "Meaning",
    "Nameplate",
    "PaperReading",
    "Part",
    "Path",
    "Shown",
    "Tree",
    "Wire",
    "Zone",
    "catalogue",
    "did_you_mean",
    "fit",
    "library_names",
    "load_machine",
    "machine_from_text",
    "meanings",
    "meanings_of",
    "point_of",
    "read_document",
    "read_sheet",
    "read_text_file",
    "setup_of",
    "sheet_schema",
    "sheet_text",
    "skeleton",
    "steps_of",
    "text_of",
    "wire_of",
]
