#!/usr/bin/env python3
"""Draws shapes.svg and path.svg from shapes.csv and path.csv in this folder. Standard library only."""
import csv
import pathlib

HERE = pathlib.Path(__file__).parent
WIDTH, PANEL, LEFT, GAP = 720, 190, 64, 44
DASHES = ["none", "7 4", "2 3", "9 3 2 3", "none", "7 4", "2 3"]


def read(name):
    with open(HERE / name, newline="") as file:
        return [{key: float(value) for key, value in row.items()} for row in csv.DictReader(file)]


def text(x, y, words, anchor="start"):
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{words}</text>'


def line(points, dash="none", width=1.4):
    path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    return f'<polyline points="{path}" fill="none" stroke="#222" stroke-width="{width}" stroke-dasharray="{dash}"/>'


def page(height, title, parts):
    head = (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img" '
            f'font-family="sans-serif" font-size="12"><title>{title}</title>')
    return head + "\n" + "\n".join(parts) + "\n</svg>\n"


def shapes():
    rows = read("shapes.csv")
    r_min, r_max = min(r["radius_mm"] for r in rows), max(r["radius_mm"] for r in rows)
    top = max(r["height_mm"] for r in rows) * 1.05
    parts = []
    for panel, pressure in enumerate(sorted({r["pressure_mpa"] for r in rows})):
        base = (panel + 1) * (PANEL + GAP) - GAP / 2
        x_of = lambda r: LEFT + (r - r_min) / (r_max - r_min) * (WIDTH - LEFT - 24)
        y_of = lambda h: base - h / top * PANEL
        for disc in range(int(max(r["disc"] for r in rows)) + 1):
            points = [(x_of(r["radius_mm"]), y_of(r["height_mm"])) for r in rows
                      if r["pressure_mpa"] == pressure and r["disc"] == disc]
            parts.append(line(points, DASHES[disc % len(DASHES)]))
        parts.append(line([(LEFT, y_of(0)), (WIDTH - 24, y_of(0))], width=0.6))
        parts.append(text(LEFT, base - PANEL + 4, f"{pressure:g} MPa"))
        for r in range(6, 12):
            parts.append(text(x_of(r), base + 15, f"{r}", "middle"))
        for h in (0.0, 0.5, 1.0):
            parts.append(text(LEFT - 8, y_of(h) + 4, f"{h:g}", "end"))
    height = 3 * (PANEL + GAP) + 14
    parts.append(text(WIDTH / 2, height - 4, "radius [mm]; height of every disc's underside over the clamp plane [mm]", "middle"))
    (HERE / "shapes.svg").write_text(page(height, "Shape of every disc at three pressures", parts))


def path():
    rows = sorted(read("path.csv"), key=lambda r: r["pressure_mpa"])
    p_max, w_max, height = rows[-1]["pressure_mpa"], max(r["lift_linear_um"] for r in rows), 420
    x_of = lambda p: LEFT + p / p_max * (WIDTH - LEFT - 24)
    y_of = lambda w: height - 50 - w / w_max * (height - 80)
    parts = [line([(x_of(r["pressure_mpa"]), y_of(r["lift_linear_um"])) for r in rows], "6 4"),
             line([(x_of(r["pressure_mpa"]), y_of(r["lift_large_um"])) for r in rows])]
    with open(HERE / "path.csv") as file:  # rows up to the first that steps back are the path itself
        own = [tuple(map(float, row.split(","))) for row in file.read().splitlines()[1:]]
    for k, (p, linear, _) in enumerate(own):
        if k and p < own[k - 1][0]:
            break
        parts.append(f'<circle cx="{x_of(p):.1f}" cy="{y_of(linear):.1f}" r="3" fill="none" stroke="#222"/>')
    for p in (0, 0.25, 0.5, 0.75, 1.0):
        parts.append(text(x_of(p), height - 32, f"{p:g}", "middle"))
    for w in (0, 50, 100, 150, 200):
        parts.append(text(LEFT - 8, y_of(w) + 4, f"{w}", "end"))
    parts.append(line([(LEFT, y_of(0)), (WIDTH - 24, y_of(0))], width=0.6))
    parts.append(line([(LEFT, y_of(0)), (LEFT, y_of(w_max))], width=0.6))
    parts.append(text(WIDTH / 2, height - 10, "pressure [MPa]; lift at the seat [um]: dashed linear with its breakpoints, full line large lift", "middle"))
    (HERE / "path.svg").write_text(page(height, "Lift over pressure", parts))


shapes()
path()
