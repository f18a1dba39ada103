"""Addresses of the desk. Every address that writes takes a form and answers with a redirect."""

from django.urls import path

from halfsplit.desk.pages import call, home, new, own, patterns, sheets, steps, style, wiring

urlpatterns = [
    path("", home.calls_page, name="home"),
    path("new/", new.new_call, name="new"),
    path("new/own-sheet/", own.own_sheet, name="own"),
    path("calls/<int:number>/", call.call_page, name="call"),
    path("calls/<int:number>/wiring/", wiring.of_call, name="call_wiring"),
    path("wiring/<str:sheet>/", wiring.of_sheet, name="sheet_wiring"),
    path("calls/<int:number>/reading/", steps.add_reading, name="add_reading"),
    path("calls/<int:number>/seen/", steps.add_seen, name="add_seen"),
    path("calls/<int:number>/skip/", steps.skip, name="skip"),
    path("calls/<int:number>/cannot-reach/", steps.cannot_reach, name="cannot_reach"),
    path("calls/<int:number>/set/", steps.set_to, name="set_to"),
    path("calls/<int:number>/take-back/", steps.take_back, name="take_back"),
    path("sheets/", sheets.sheets_page, name="sheets"),
    path("sheets/begin/", sheets.begin, name="begin_sheet"),
    path("sheets/look/", sheets.look, name="look_over"),
    path("sheets/<int:number>/", sheets.editor, name="sheet"),
    path("sheets/<int:number>/call/", sheets.call_with, name="call_with"),
    path("patterns/", patterns.patterns_page, name="patterns"),
    path("drawing.css", style.drawing_style, name="drawing_style"),
]
