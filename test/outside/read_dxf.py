"""Reads a DXF from standard input with ezdxf and prints what it found, as JSON."""

import io
import json
import math
import sys

import ezdxf


def length(entity):
    kind = entity.dxftype()
    if kind == "LINE":
        return (entity.dxf.end - entity.dxf.start).magnitude
    if kind == "CIRCLE":
        return 2 * math.pi * entity.dxf.radius
    if kind == "ARC":
        sweep = (entity.dxf.end_angle - entity.dxf.start_angle) % 360
        return math.radians(sweep) * entity.dxf.radius
    return sum(length(part) for part in entity.virtual_entities())


doc = ezdxf.read(io.StringIO(sys.stdin.read()))
audit = doc.audit()
space = doc.modelspace()
layers = {}
for entity in space:
    layers.setdefault(entity.dxf.layer, []).append(entity)
json.dump(
    {
        "version": doc.dxfversion,
        "units": doc.units,
        "errors": [error.message for error in audit.errors],
        "fixes": [fix.message for fix in audit.fixes],
        "kinds": sorted({entity.dxftype() for entity in space}),
        "colours": {layer.dxf.name: layer.dxf.color for layer in doc.layers},
        "counts": {name: len(found) for name, found in layers.items()},
        "lengths": {name: sum(map(length, found)) for name, found in layers.items()},
        "extents": [list(doc.header["$EXTMIN"]), list(doc.header["$EXTMAX"])],
        "limits": [list(doc.header["$LIMMIN"]), list(doc.header["$LIMMAX"])],
    },
    sys.stdout,
)
