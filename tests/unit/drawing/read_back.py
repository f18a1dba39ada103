"""Read a drawing back from its strokes: which terminals each link touches, by place and nothing else."""

from xml.etree import ElementTree

from halfsplit.drawing.graph import links_of
from halfsplit.techsheet import Machine

SVG = "{http://www.w3.org/2000/svg}"
Netlist = set[tuple[str, frozenset[str]]]


def netlist_of_drawing(svg: str) -> Netlist:
    """Every link with the terminals whose circles lie where its own strokes begin and end."""
    root = ElementTree.fromstring(svg)
    joints: dict[tuple[float, float], set[str]] = {}
    for circle in root.iter(f"{SVG}circle"):
        if point := circle.get("data-point"):
            joints.setdefault((float(circle.attrib["cx"]), float(circle.attrib["cy"])), set()).add(point)
    found = set()
    for group in root.iter(f"{SVG}g"):
        if name := group.get("data-link"):
            strokes = [stroke.attrib for stroke in group.findall(f"{SVG}line")]
            ends = {(float(stroke[f"x{end}"]), float(stroke[f"y{end}"])) for stroke in strokes for end in "12"}
            top, bottom = min(ends, key=lambda place: place[1]), max(ends, key=lambda place: place[1])
            found.add((name, frozenset(joints[top] | joints[bottom])))
    return found


def netlist_of_machine(machine: Machine) -> Netlist:
    """Wires and elements straight from the sheet, and what the graph adds inside parts."""
    wires = {(wire.name, frozenset((wire.a, wire.b))) for wire in machine.wires.values()}
    elements = {(element.branch, frozenset((element.a, element.b))) for element in machine.elements}
    own = {(link.name, link.ends) for link in links_of(machine) if link.kind in {"inside", "metal"}}
    return wires | elements | own
