"""One module for each section of a sheet: settings and places, parts, wires, setups, functions and complaints."""
