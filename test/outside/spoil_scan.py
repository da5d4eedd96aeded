"""Spoils rendered pages as scanners and phones do, by OpenCV, with known truth.

Reads a JSON of {"dpi": {"150": "page.png", ...}, "marks": [[x, y] in px, corner-based], ...} on stdin and
writes pictures into a folder; prints for each its file, the map from the page's pixels to the picture's
(corner-based: pixel (0, 0) covers [0, 1] x [0, 1]), and where OpenCV itself finds each mark, in two ways.
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


def tilted_map(rng, w, h, deg):
    """A camera that looks at the page's middle under `deg` degrees off upright, from any side, turned; as
    many pixels there as the page has."""
    side, turn = rng.uniform(0, 2 * np.pi), np.deg2rad(rng.uniform(-15, 15))
    tilt, _ = cv2.Rodrigues(np.deg2rad(deg) * np.array([np.cos(side), np.sin(side), 0]))
    upright, _ = cv2.Rodrigues(np.array([0, 0, turn]))
    r = upright @ tilt
    size = (int(1.35 * h), int(1.35 * h))
    far = 1.5 * h
    k = np.array([[far, 0, size[0] / 2], [0, far, size[1] / 2], [0, 0, 1]])
    middle = np.array([[1, 0, -w / 2], [0, 1, -h / 2], [0, 0, 1]])
    return k @ np.column_stack([r[:, 0], r[:, 1], [0, 0, far]]) @ middle, size


def spoil(rng, page, m, size, ground, grain=7):
    """`m` takes corner-based pixels of the page to those of the picture; noise has a standard deviation of
    up to `grain`, of 255."""
    cv_map = BACK @ m @ HALF
    area = cv2.INTER_LINEAR
    out = cv2.warpPerspective(page, cv_map, size, flags=area, borderValue=(ground,) * 3).astype(np.float32)
    blur = rng.uniform(0.3, 1.1)
    out = cv2.GaussianBlur(out, (0, 0), blur)
    y, x = np.mgrid[0 : size[1], 0 : size[0]].astype(np.float32)
    gx, gy = rng.uniform(-0.3, 0.3, 2)
    light = 1 - 0.15 + gx * (x / size[0] - 0.5) + gy * (y / size[1] - 0.5)
    out = out * light[..., None] + rng.normal(0, rng.uniform(1, grain), out.shape)
    return np.clip(out, 0, 255).astype(np.uint8)


def onto(m, x, y):
    p = m @ np.array([x, y, 1])
    return p[:2] / p[2]


def begun(m, per_mm):
    """The map with the sheet moved by 0.28 mm: both opinions have to find back."""
    return m @ np.array([[1, 0, 0.2 * per_mm], [0, 1, -0.2 * per_mm], [0, 0, 1]])


def by_alignment(picture, page, m, marks, per_mm):
    """The rendered page round each mark laid over the picture by findTransformECC (G. Evangelidis and
    E. Psarakis, IEEE PAMI 30 (2008) 1858-1865): any style of mark."""
    page, picture = (cv2.cvtColor(p, cv2.COLOR_BGR2GRAY) for p in (page, picture))
    m = begun(m, per_mm)
    side = int(13 * per_mm)
    how = {"flags": cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP, "borderMode": cv2.BORDER_REPLICATE}
    done = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 200, 1e-5)
    found = []
    for x, y in marks:
        patch = np.array([[1, 0, x - side / 2], [0, 1, y - side / 2], [0, 0, 1]])
        drawn = cv2.warpPerspective(page, BACK @ patch @ HALF, (side, side), **how)
        seen = cv2.warpPerspective(picture, BACK @ m @ patch @ HALF, (side, side), **how)
        move = np.eye(2, 3, dtype=np.float32)
        _, move = cv2.findTransformECC(drawn, seen, move, cv2.MOTION_TRANSLATION, done, None, 5)
        found.append(onto(m, x + move[0, 2], y + move[1, 2]).tolist())
    return found


def by_corner(picture, m, marks, per_mm):
    """cornerSubPix, for crosses: its window is turned with the picture and not with the page, and must not
    reach the ring, 2.5 mm from the middle, with its corners either, wherever a photo is large or small."""
    grey = cv2.GaussianBlur(cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY), (0, 0), 0.6)
    done = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 60, 0.001)
    found = []
    for x, y in marks:
        at = onto(m, x, y)
        side = [onto(m, x + 1, y) - at, onto(m, x, y + 1) - at]
        here = per_mm * np.sqrt(abs(np.linalg.det(side)))
        reach = max(4, int(1.2 * here))
        start = np.array([[onto(begun(m, per_mm), x, y) - 0.5]], np.float32)
        found.append((cv2.cornerSubPix(grey, start, (reach, reach), (-1, -1), done)[0][0] + 0.5).tolist())
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
                if kind.startswith("tilted "):
                    m, size = tilted_map(rng, w, h, float(kind.split()[1]))
                else:
                    m, size = (photo_map if kind == "photo" else scan_map)(rng, w, h)
                ground = 250 if kind == "scan" else 70
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
                })
                if not ask.get("opinions", True):
                    continue
                cases[-1]["aligned"] = by_alignment(picture, page, m, marks, int(dpi) / 25.4)
                cases[-1]["corner"] = by_corner(picture, m, marks, int(dpi) / 25.4)
    json.dump(cases, sys.stdout)


if __name__ == "__main__":
    main()
