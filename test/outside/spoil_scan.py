"""Spoils rendered pages as scanners and phones do, by OpenCV, with known truth.

Reads a JSON of {"dpi": {"150": "page.png", ...}, "marks": [[x, y] in px, corner-based], ...} on stdin and
writes pictures into a folder; prints for each its file, the map from the page's pixels to the picture's
(corner-based: pixel (0, 0) covers [0, 1] x [0, 1]), and where OpenCV's own cornerSubPix finds each mark.
"""
import json
import sys

import cv2
import numpy as np

HALF = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1]])
BACK = np.array([[1, 0, -0.5], [0, 1, -0.5], [0, 0, 1]])


def scan_map(rng, w, h):
    quarter = 90 * rng.integers(0, 4)
    turn = np.deg2rad(quarter + rng.uniform(-6, 6))
    scale = rng.uniform(0.985, 1.015)
    side = int(1.08 * max(w, h))
    c, s = scale * np.cos(turn), scale * np.sin(turn)
    t = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])
    middle = np.array([[1, 0, -w / 2], [0, 1, -h / 2], [0, 0, 1]])
    out = np.array([[1, 0, side / 2 + rng.uniform(-5, 5)], [0, 1, side / 2 + rng.uniform(-5, 5)], [0, 0, 1]])
    return out @ t @ middle, (side, side)


def photo_map(rng, w, h):
    """A pinhole camera over the page, tipped and leaning by up to 28 degrees."""
    a, b, g = np.deg2rad(rng.uniform([-28, -28, -15], [28, 28, 15]))
    rx = np.array([[1, 0, 0], [0, np.cos(a), -np.sin(a)], [0, np.sin(a), np.cos(a)]])
    ry = np.array([[np.cos(b), 0, np.sin(b)], [0, 1, 0], [-np.sin(b), 0, np.cos(b)]])
    rz = np.array([[np.cos(g), -np.sin(g), 0], [np.sin(g), np.cos(g), 0], [0, 0, 1]])
    r = rz @ ry @ rx
    size = (int(1.1 * h), int(1.1 * h))
    focal = 0.95 * size[0]
    far = 1.22 * h
    k = np.array([[focal, 0, size[0] / 2], [0, focal, size[1] / 2], [0, 0, 1]])
    plane = np.column_stack([r[:, 0], r[:, 1], [0, 0, far]])
    middle = np.array([[1, 0, -w / 2], [0, 1, -h / 2], [0, 0, 1]])
    return k @ plane @ middle, size


def spoil(rng, page, m, size, ground):
    """`m` takes corner-based pixels of the page to those of the picture."""
    cv_map = BACK @ m @ HALF
    area = cv2.INTER_LINEAR
    out = cv2.warpPerspective(page, cv_map, size, flags=area, borderValue=(ground,) * 3).astype(np.float32)
    blur = rng.uniform(0.3, 1.1)
    out = cv2.GaussianBlur(out, (0, 0), blur)
    y, x = np.mgrid[0 : size[1], 0 : size[0]].astype(np.float32)
    gx, gy = rng.uniform(-0.3, 0.3, 2)
    light = 1 - 0.15 + gx * (x / size[0] - 0.5) + gy * (y / size[1] - 0.5)
    out = out * light[..., None] + rng.normal(0, rng.uniform(1, 7), out.shape)
    return np.clip(out, 0, 255).astype(np.uint8)


def second_opinion(picture, m, marks, per_mm):
    """OpenCV's own corner finder, begun 0.3 mm off the truth."""
    grey = cv2.GaussianBlur(cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY), (0, 0), max(0.6, 0.05 * per_mm))
    found = []
    for x, y in marks:
        p = m @ np.array([x, y, 1])
        start = np.array([[[p[0] / p[2] - 0.5 + 0.2 * per_mm, p[1] / p[2] - 0.5 - 0.2 * per_mm]]], np.float32)
        reach = max(4, int(1.5 * per_mm))
        done = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 60, 0.001)
        at = cv2.cornerSubPix(grey, start, (reach, reach), (-1, -1), done)[0][0]
        found.append([float(at[0]) + 0.5, float(at[1]) + 0.5])
    return found


def main():
    ask = json.load(sys.stdin)
    cases = []
    for dpi, file in ask["pages"].items():
        page = cv2.imread(file)
        h, w = page.shape[:2]
        marks = [[x * int(dpi), y * int(dpi)] for x, y in ask["marksInches"]]
        for kind, count in ask["cases"][dpi].items():
            for i in range(count):
                rng = np.random.default_rng([int(dpi), i, len(kind)])
                make = photo_map if kind == "photo" else scan_map
                m, size = make(rng, w, h)
                ground = 70 if kind == "photo" else 250
                picture = spoil(rng, page, m, size, ground)
                jpeg = i % 2 == 1
                name = f"{ask['folder']}/{kind}-{dpi}-{i}.{'jpg' if jpeg else 'png'}"
                quality = [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(60, 95))] if jpeg else []
                cv2.imwrite(name, picture, quality)
                cases.append({
                    "file": name,
                    "kind": kind,
                    "dpi": int(dpi),
                    "map": (m / m[2, 2]).ravel().tolist()[:8],
                    "second": second_opinion(picture, m, marks, int(dpi) / 25.4),
                })
    json.dump(cases, sys.stdout)


main()
