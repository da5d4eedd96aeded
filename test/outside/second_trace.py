"""A stamped page with known truth, and OpenCV's opinion of what was traced out of it.

`draw`: reads {"page", "dpi", "heightMm", "shapes": [{"loop": [[x, y] in mm, y up], "ink": [r, g, b]}],
"file", "seed"} on stdin, stamps the shapes on the rendered page, spoils it as a scanner does, and prints the
map from the page's pixels to the picture's. `measure`: reads the same with "map" and "traced" (for each
shape {"grown", "cut"}, loops in mm) and prints for each shape the area of its contour on the page that
OpenCV rectified, by findContours at Otsu's threshold (IEEE Trans. SMC 9 (1979) 62-66), and how far the loops'
points are from the known ink, by distanceTransform, mm.
"""
import json
import sys

import cv2
import numpy as np

from spoil_scan import BACK, HALF, scan_map, spoil

FINE = 40
"""Pixels per mm in which what is known is drawn and measured: an edge is true to 0.0125 mm."""
ROOM = 6
"""Round a shape, mm."""


def window(loop):
    """The corner of a shape's window (left, top) and its size in mm."""
    x, y = np.array(loop).T
    return x.min() - ROOM, y.max() + ROOM, np.ptp(x) + 2 * ROOM, np.ptp(y) + 2 * ROOM


def filled(loop, left, top, w, h, per_mm):
    """The pixels whose middles are inside of the loop, 255. Row by row and not by fillPoly, which draws the
    outline too, half a pixel outside."""
    p = (np.array(loop) - [left, top]) * [per_mm, -per_mm] - 0.5
    out = np.zeros((round(h * per_mm), round(w * per_mm)), np.uint8)
    y, x = np.mgrid[0 : out.shape[0], 0 : out.shape[1]]
    inside = np.zeros(out.shape, bool)
    for (ax, ay), (bx, by) in zip(p, np.roll(p, -1, 0)):
        if ay == by:
            continue
        low, high = sorted((ay, by))
        rows = slice(max(0, int(np.ceil(low))), max(0, int(np.ceil(high))))
        if rows.start >= rows.stop:
            continue
        crossing = ax + (y[rows, :1] - ay) * (bx - ax) / (by - ay)
        inside[rows] ^= x[rows] > crossing
    out[inside] = 255
    return out


def draw(ask):
    page = cv2.imread(ask["page"]).astype(np.float32)
    k = ask["dpi"] / 25.4
    for shape in ask["shapes"]:
        left, top, w, h = window(shape["loop"])
        # The window's corner on a whole pixel, eight samples a side.
        i, j = int(left * k), int((ask["heightMm"] - top) * k)
        n, m = int(w * k) + 2, int(h * k) + 2
        fine = filled(shape["loop"], i / k, ask["heightMm"] - j / k, n / k, m / k, 8 * k)
        share = cv2.resize(fine, (n, m), interpolation=cv2.INTER_AREA)[..., None] / 255.0
        part = page[j : j + m, i : i + n]
        page[j : j + m, i : i + n] = part * (1 - share) + share * np.array(shape["ink"][::-1], np.float32)
    rng = np.random.default_rng(ask["seed"])
    h, w = page.shape[:2]
    m, size = scan_map(rng, w, h)
    cv2.imwrite(ask["file"], spoil(rng, page.astype(np.uint8), m, size, 250, 3))
    return (m / m[2, 2]).ravel().tolist()


def area_by_contour(picture, to_picture, box):
    """Laid flat at half the finest scale, blurred as little as grain asks, Otsu, the largest contour."""
    left, top, w, h = box
    per_mm = FINE / 2
    flat = np.array([[1 / per_mm, 0, left], [0, -1 / per_mm, top], [0, 0, 1]])
    size = (round(w * per_mm), round(h * per_mm))
    how = cv2.INTER_CUBIC | cv2.WARP_INVERSE_MAP
    seen = cv2.warpPerspective(picture, BACK @ to_picture @ flat @ HALF, size, flags=how)
    # The channel in which the ink is darkest beside its paper.
    edge, middle = seen[:20].mean((0, 1)), np.percentile(seen, 5, (0, 1))
    grey = cv2.GaussianBlur(seen[..., int(np.argmax(edge - middle))], (0, 0), 2)
    _, ink = cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY_INV | cv2.THRESH_OTSU)
    loops, _ = cv2.findContours(ink, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    loop = max(loops, key=cv2.contourArea)
    # It runs through the middles of its pixels, half of one inside of their edges: by Pick's theorem the
    # pixels' own area is its area, half its points, and one.
    return (cv2.contourArea(loop) + len(loop) / 2 + 1) / per_mm**2


def off(loop, known, box):
    """How far the loop's points are from the known ink: the least and the most."""
    left, top, w, h = box
    ink = filled(known, left, top, w, h, FINE)
    far = cv2.distanceTransform(255 - ink, cv2.DIST_L2, cv2.DIST_MASK_PRECISE)
    p = (np.array(loop, np.float32) - np.float32([left, top])) * np.float32([FINE, -FINE]) - 0.5
    # To the middle of the nearest pixel of ink, which is half of one inside its edge.
    d = (cv2.remap(far, p[:, 0], p[:, 1], cv2.INTER_LINEAR) - 0.5) / FINE
    return [float(d.min()), float(d.max())]


def measure(ask):
    picture = cv2.imread(ask["file"])
    k = ask["dpi"] / 25.4
    m = np.array(ask["map"]).reshape(3, 3) @ np.array([[k, 0, 0], [0, -k, ask["heightMm"] * k], [0, 0, 1]])
    told = []
    for shape, traced in zip(ask["shapes"], ask["traced"]):
        box = window(shape["loop"])
        told.append({
            "area": area_by_contour(picture, m, box),
            "grown": off(traced["grown"], shape["loop"], box),
            "cut": off(traced["cut"], shape["loop"], box),
        })
    return told


def main():
    ask = json.load(sys.stdin)
    json.dump({"draw": draw, "measure": measure}[sys.argv[1]](ask), sys.stdout)


main()
