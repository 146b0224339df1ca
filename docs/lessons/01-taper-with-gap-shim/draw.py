#!/usr/bin/env python3
"""Draws shapes.svg and path.svg from shapes.csv and path.csv in this folder. Standard library only."""
import csv
import pathlib

HERE = pathlib.Path(__file__).parent
INK, STEEL, LINE, PAPER, COPPER, SHIM, GAP = "#1C2730", "#52616C", "#8C8674", "#F8F5EE", "#9C4416", "#D9D3C4", "#E3B79B"
WIDTH, LEFT, RIGHT = 720, 72, 24
SHIMS = [("23.5 × 0.15", 0.15), ("23.5 × 0.15", 0.15), ("23.5 × 0.15", 0.15), ("gap shim 13.7 × 0.10", 0.10),
         ("22 × 0.15", 0.15), ("20 × 0.15", 0.15), ("17 × 0.20", 0.20)]
GAP_SHIM = 3


def read(name):
    with open(HERE / name, newline="") as file:
        return [{key: float(value) for key, value in row.items()} for row in csv.DictReader(file)]


def text(x, y, words, anchor="start", color=STEEL, size=13, extra=""):
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{color}" font-size="{size}" {extra}>{words}</text>'


def coordinates(points):
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)


def line(points, color=INK, width=1.5, dash="none"):
    return (f'<polyline points="{coordinates(points)}" fill="none" stroke="{color}" stroke-width="{width}" '
            f'stroke-dasharray="{dash}" stroke-linejoin="round"/>')


def page(height, title, parts):
    head = (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img" '
            f'font-family="\'Source Sans 3\', \'Source Sans Pro\', sans-serif"><title>{title}</title>'
            f'<rect width="{WIDTH}" height="{height}" fill="{PAPER}"/>')
    return head + "\n" + "\n".join(parts) + "\n</svg>\n"


def shapes():
    rows = read("shapes.csv")
    r_min, r_max = 5.0, max(r["radius_mm"] for r in rows)
    pressures = sorted({r["pressure_mpa"] for r in rows})
    panel, gap, top = 176, 40, 1.2
    x_of = lambda r: LEFT + (r - r_min) / (r_max - r_min) * (WIDTH - LEFT - RIGHT)
    parts = []
    for k, pressure in enumerate(pressures):
        base = (k + 1) * (panel + gap) - gap / 2
        y_of = lambda h: base - h / top * panel
        # grid and axes
        for h in (0.0, 0.5, 1.0):
            parts.append(text(LEFT - 10, y_of(h) + 4, f"{h:g}", "end"))
        parts.append(line([(LEFT, y_of(0)), (WIDTH - RIGHT, y_of(0))], INK, 0.75))
        # shims as they lie, each as thick as it is
        for disc, (name, thickness) in enumerate(SHIMS):
            under = [(r["radius_mm"], r["height_mm"]) for r in rows
                     if r["pressure_mpa"] == pressure and r["disc"] == disc]
            under = [(r_min, under[0][1])] + under
            outline = [(x_of(r), y_of(h)) for r, h in under] + [(x_of(r), y_of(h + thickness)) for r, h in reversed(under)]
            fill = GAP if disc == GAP_SHIM else SHIM
            parts.append(f'<polygon points="{coordinates(outline)}" fill="{fill}" stroke="{INK}" stroke-width="1"/>')
            if k == 0 and disc in (1, GAP_SHIM, 4, 5, 6):
                r, h = under[-1]
                words = "3 × 23.5 × 0.15" if disc == 1 else name
                at = x_of(r) + 6 if disc > 2 else x_of(9.6)
                parts.append(text(at, y_of(h + thickness / 2) + 4, words, color=INK, size=12))
        # the clamp and the seat
        parts.append(line([(x_of(5.5), y_of(1.05)), (x_of(5.5), y_of(1.14))], STEEL, 1))
        parts.append(text(x_of(5.5) + 5, y_of(1.08), "edge of the clamp" if k == 0 else "", size=12))
        parts.append(f'<path d="M{x_of(11) - 5:.1f},{base + 9:.1f} L{x_of(11):.1f},{base:.1f} L{x_of(11) + 5:.1f},{base + 9:.1f} Z" fill="{INK}"/>')
        parts.append(text(WIDTH - RIGHT, base - panel + 16, f"{pressure:.1f} MPa", "end", INK, 18))
        for r in range(5, 12):
            if r != 11 or k == len(pressures) - 1:
                parts.append(text(x_of(r), base + 22, f"{r}", "middle"))
        if k < len(pressures) - 1:
            parts.append(text(x_of(11), base + 22, "seat", "middle", size=12))
    height = len(pressures) * (panel + gap) + 34
    parts.append(text((LEFT + WIDTH) / 2, height - 12, "radius, mm", "middle"))
    middle = height / 2 - 10
    parts.append(text(22, middle, "height over the clamp plane, mm (drawn 1.6 times too high)", "middle",
                      extra=f'transform="rotate(-90 22 {middle:.1f})"'))
    (HERE / "shapes.svg").write_text(page(height, "Shape of every disc at three pressures", parts))


def path():
    with open(HERE / "path.csv") as file:  # rows up to the first that steps back are the path itself
        table = [tuple(map(float, row.split(","))) for row in file.read().splitlines()[1:]]
    n_own = next((k for k in range(1, len(table)) if table[k][0] < table[k - 1][0]), len(table))
    rows = sorted(table)
    p_max, height, bottom, top, w_top = rows[-1][0], 430, 58, 24, 220
    right = 120
    x_of = lambda p: LEFT + p / p_max * (WIDTH - LEFT - right)
    y_of = lambda w: height - bottom - w / w_top * (height - bottom - top)
    parts = []
    for w in (0, 50, 100, 150, 200):
        parts.append(line([(LEFT, y_of(w)), (x_of(p_max), y_of(w))], LINE, 0.5, "1 4" if w else "none"))
        parts.append(text(LEFT - 10, y_of(w) + 4, f"{w}", "end"))
    for p in (0, 0.2, 0.4, 0.6, 0.8, 1.0):
        parts.append(line([(x_of(p), y_of(0)), (x_of(p), y_of(0) + 5)], INK, 0.75))
        parts.append(text(x_of(p), y_of(0) + 20, f"{p:g}", "middle"))
    parts.append(line([(LEFT, y_of(0)), (x_of(p_max), y_of(0))], INK, 0.75))
    parts.append(line([(x_of(p), y_of(linear)) for p, linear, _ in rows], STEEL, 1.5, "7 4"))
    parts.append(line([(x_of(p), y_of(large)) for p, _, large in rows], INK, 2))
    # breakpoints of the linear path; those within a hundredth of the range share one ring
    rings = []
    for p, linear, _ in table[1:n_own - 1]:
        if rings and p - rings[-1][0] < 0.012 * p_max:
            rings[-1][2] += 1
        else:
            rings.append([p, linear, 1])
    for p, linear, n in rings:
        parts.append(f'<circle cx="{x_of(p):.1f}" cy="{y_of(linear):.1f}" r="4.5" fill="{PAPER}" stroke="{COPPER}" stroke-width="1.5"/>')
    first = rings[0]
    parts.append(text(x_of(first[0]) - 10, y_of(first[1]) - 22, f"gap closes, {first[0]:.2f} MPa", "end", COPPER))
    parts.append(line([(x_of(first[0]) - 8, y_of(first[1]) - 20), (x_of(first[0]) - 3, y_of(first[1]) - 5)], COPPER, 0.75))
    parts.append(text(x_of(p_max) + 8, y_of(rows[-1][1]) + 4, "linear theory"))
    parts.append(text(x_of(p_max) + 8, y_of(rows[-1][2]) + 4, "large deflection", color=INK))
    parts.append(text((LEFT + x_of(p_max)) / 2, height - 14, "pressure over the face shim, MPa", "middle"))
    parts.append(text(22, (y_of(0) + top) / 2, "lift at the seat, µm", "middle", extra=f'transform="rotate(-90 22 {(y_of(0) + top) / 2:.1f})"'))
    (HERE / "path.svg").write_text(page(height, "Lift over pressure", parts))


shapes()
path()
