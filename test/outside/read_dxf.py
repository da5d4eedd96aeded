"""Reads a DXF from standard input with ezdxf and prints what it found, as JSON."""

import io
import json
import math
import sys

import ezdxf
from ezdxf.math import Vec2, Vec3, bulge_center, bulge_radius


def points(entity):
    """The entity as points within FINE of it, in the direction in which it was drawn."""
    kind = entity.dxftype()
    if kind == "LINE":
        return [entity.dxf.start, entity.dxf.end]
    if kind in ("ARC", "CIRCLE", "SPLINE"):
        return list(entity.flattening(FINE))
    chain = [Vec3(corners(entity)[0][0])]
    for part in entity.virtual_entities():
        piece = points(part)
        # A clockwise bulge comes back as an ARC, which runs the other way.
        if piece[0].distance(chain[-1]) > piece[-1].distance(chain[-1]):
            piece.reverse()
        chain += piece
    return chain


def length(entity):
    kind = entity.dxftype()
    if kind == "LINE":
        return (entity.dxf.end - entity.dxf.start).magnitude
    if kind == "CIRCLE":
        return 2 * math.pi * entity.dxf.radius
    if kind == "ARC":
        sweep = (entity.dxf.end_angle - entity.dxf.start_angle) % 360
        return math.radians(sweep) * entity.dxf.radius
    if kind == "SPLINE":
        chain = points(entity)
        return sum(a.distance(b) for a, b in zip(chain, chain[1:]))
    return sum(length(part) for part in entity.virtual_entities())


def corners(entity):
    """Place and bulge of each corner of a polyline."""
    if entity.dxftype() == "LWPOLYLINE":
        return [(Vec2(x, y), b) for x, y, b in entity.get_points("xyb")]
    return [(Vec2(v.dxf.location), v.dxf.bulge) for v in entity.vertices]


def arcs(entity):
    """Each bulge of a polyline with the circle that ezdxf makes of it."""
    if entity.dxftype() not in ("LWPOLYLINE", "POLYLINE"):
        return []
    all = corners(entity)
    ends = [at for at, _ in all[1:]] + [all[0][0]]
    return [
        {
            "bulge": bulge,
            "radius": bulge_radius(at, end, bulge),
            "centre": list(bulge_center(at, end, bulge)),
        }
        for (at, bulge), end in zip(all, ends)
        if bulge != 0
    ]


FINE = 1e-4
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
        "arcs": [arc for entity in space for arc in arcs(entity)],
        "points": [[[p.x, p.y] for p in points(e)] for e in space]
        if "points" in sys.argv
        else [],
        "extents": [list(doc.header["$EXTMIN"]), list(doc.header["$EXTMAX"])],
        "limits": [list(doc.header["$LIMMIN"]), list(doc.header["$LIMMAX"])],
    },
    sys.stdout,
)
