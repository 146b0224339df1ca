#!/usr/bin/env python3
"""Draws travel.svg and speed.svg from loops.csv in this folder. Standard library only."""
import csv
import math
import pathlib

HERE = pathlib.Path(__file__).parent
INK, STEEL, LINE, PAPER, COPPER = "#1C2730", "#52616C", "#8C8674", "#F8F5EE", "#9C4416"
WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM = 720, 470, 78, 86, 26, 54
STYLE = {0.0: (STEEL, 1.2, "6 4"), 1.0: (INK, 1.0, "2 3"), 2.0: (COPPER, 2.0, "none"), 5.0: (INK, 1.2, "none")}
NAME = {0.0: "no air", 1.0: "1 mL", 2.0: "2 mL", 5.0: "5 mL"}


def loops():
    found = {}
    with open(HERE / "loops.csv", newline="") as file:
        for row in csv.DictReader(file):
            found.setdefault(float(row["air_ml"]), []).append({key: float(value) for key, value in row.items()})
    return found


def text(x, y, words, anchor="start", color=STEEL, size=13, extra=""):
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" fill="{color}" font-size="{size}" {extra}>{words}</text>'


def line(points, color=INK, width=1.5, dash="none"):
    path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    return (f'<polyline points="{path}" fill="none" stroke="{color}" stroke-width="{width}" '
            f'stroke-dasharray="{dash}" stroke-linejoin="round"/>')


def ticks(low, high, steps):
    span = (high - low) / steps
    power = 10.0 ** math.floor(math.log10(span))
    step = next(k * power for k in (1, 2, 5, 10) if k * power >= span)
    first = -(-low // step) * step
    return [first + k * step for k in range(int((high - first) / step + 1e-9) + 1)]


def plot(name, title, x_key, x_title, shown, labels):
    data = {air: rows for air, rows in loops().items() if air in shown}
    xs = [r[x_key] for rows in data.values() for r in rows]
    ys = [r["force_n"] for rows in data.values() for r in rows]
    pad = 0.04 * (max(ys) - min(ys))
    x_of = lambda x: LEFT + (x - min(xs)) / (max(xs) - min(xs)) * (WIDTH - LEFT - RIGHT)
    y_of = lambda y: HEIGHT - BOTTOM - (y - min(ys) + pad) / (max(ys) - min(ys) + 2 * pad) * (HEIGHT - TOP - BOTTOM)
    parts = []
    for y in ticks(min(ys), max(ys), 6):
        zero = abs(y) < 1e-9
        parts.append(line([(LEFT, y_of(y)), (WIDTH - RIGHT, y_of(y))], INK if zero else LINE, 0.75 if zero else 0.5, "none" if zero else "1 4"))
        parts.append(text(LEFT - 8, y_of(y) + 4, f"{y:.0f}".replace("-", "−"), "end"))
    for x in ticks(min(xs), max(xs), 6):
        parts.append(line([(x_of(x), HEIGHT - BOTTOM), (x_of(x), HEIGHT - BOTTOM + 5)], INK, 0.75))
        parts.append(text(x_of(x), HEIGHT - BOTTOM + 20, f"{x:.4g}".replace("-", "−"), "middle"))
    for air, rows in sorted(data.items(), key=lambda item: item[0] == 2.0):
        color, width, dash = STYLE[air]
        closed = rows + rows[:1]
        parts.append(line([(x_of(r[x_key]), y_of(r["force_n"])) for r in closed], color, width, dash))
    for air, (x, y, dx, dy) in labels(data).items():
        px, py = x_of(x), y_of(y)
        parts.append(line([(px, py), (px + dx * 0.85, py + dy * 0.85)], STYLE[air][0], 0.6))
        parts.append(text(px + dx, py + dy + 4, NAME[air], "start" if dx > 0 else "end", STYLE[air][0]))
    parts.append(text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 12, x_title, "middle"))
    middle = (TOP + HEIGHT - BOTTOM) / 2
    parts.append(text(20, middle, "force on the rod, N (compression positive)", "middle", extra=f'transform="rotate(-90 20 {middle:.1f})"'))
    head = (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
            f'font-family="\'Source Sans 3\', \'Source Sans Pro\', sans-serif"><title>{title}</title>'
            f'<rect width="{WIDTH}" height="{HEIGHT}" fill="{PAPER}"/>')
    (HERE / name).write_text(head + "\n" + "\n".join(parts) + "\n</svg>\n")


def at_force(rows, force):
    """Where a loop passes this force on its way out."""
    out = [r for r in rows if r["speed_m_s"] < 0]
    return next(r for r in out if r["force_n"] <= force)


def after_turn(data):
    places = {0.0: (-110, 34, -4), 1.0: (-330, 44, 22), 2.0: (-430, 70, 40), 5.0: (-150, -40, 0)}
    return {air: (at_force(data[air], f)["travel_mm"], at_force(data[air], f)["force_n"], dx, dy)
            for air, (f, dx, dy) in places.items()}


def in_the_middle(data):
    places = {0.0: (-300, 60, 30), 2.0: (-120, -40, -10)}
    return {air: (at_force(data[air], f)["speed_m_s"], at_force(data[air], f)["force_n"], dx, dy)
            for air, (f, dx, dy) in places.items()}


plot("travel.svg", "Force over travel with 0, 1, 2 and 5 mL of air", "travel_mm", "travel, mm", {0.0, 1.0, 2.0, 5.0}, after_turn)
plot("speed.svg", "Force over speed with no air and with 2 mL", "speed_m_s", "speed, m/s (compression positive)", {0.0, 2.0}, in_the_middle)
