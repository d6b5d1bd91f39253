# SPDX-License-Identifier: Apache-2.0
"""Draws the curves of docs/science as SVG. Same numbers, same bytes.

usage: figure.py alga|kelp CURVES.csv > FIGURE.svg
       figure.py season EXPLAIN.csv > FIGURE.svg
CURVES.csv is what tests/curves prints, EXPLAIN.csv what `tidelot explain --csv` does.
"""
import csv
import sys
from html import escape
from pathlib import Path

WIDTH, PANEL_WIDTH, PANEL_HEIGHT, LEFT, GAP, TOP = 900, 350, 150, 70, 100, 60
INK = '#222222'
COLOURS = '#2f4b7c', '#b5651d', '#3a7d44', '#7a4b94', '#7f7f7f'
DASHES = '', '7 3', '2 3', '9 3 2 3', '4 2'

RESPONSES = {
    'alga': ('Warm-temperate red alga: responses of the model with the profile\'s constants', [
        ('temperature', 'temperature, degC', 'factor of growth'),
        ('salinity', 'practical salinity', 'factor of growth'),
        ('light', 'light just below the surface, mol m-2 d-1', 'factor of growth'),
        ('uptake', 'dissolved nitrogen, umol/L', 'uptake, mg N per g dry and day')]),
    'kelp': ('Sugar kelp: responses of the model with the profile\'s constants', [
        ('temperature', 'temperature, degC', 'factor of growth'),
        ('salinity', 'practical salinity', 'factor of growth'),
        ('light', 'light at the blade, umol m-2 s-1 (8 degC)', 'photosynthesis, mg C per dm2 and h'),
        ('uptake', 'nitrate, umol/L', 'uptake, ug N per dm2 and h')]),
}
SEASON = ('One season in one cell: site 1 of Heron Bight, red alga in summer', [
    (['temperature'], 'degC'),
    (['f_temperature', 'f_salinity', 'f_light', 'f_nitrogen', 'f_density'], 'factor'),
    (['biomass_g_per_m'], 'g per m of line'),
    (['tissue_n'], 'g N per g dry')])


def nice_step(span):
    """1, 2 or 5 times a power of ten, for four to nine steps."""
    power = 10.0 ** (len(f'{span:.0f}') - 2) if span >= 1 else 0.001
    return next(power * m for m in (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500)
                if span / (power * m) <= 6)


class Panel:
    """Lines over one pair of axes. lines: [(name, [(x, y)])]."""

    def __init__(self, lines, left, top, x_title, y_title, x_ticks=None, low=0.0):
        self.lines, self.left, self.top = lines, left, top
        self.x_title, self.y_title, self.x_ticks = x_title, y_title, x_ticks
        points = [point for _, line in lines for point in line]
        self.x_low, self.x_high = points[0][0], max(x for x, _ in points)
        self.low = low
        self.high = max(1.0 if y_title.startswith('factor') else 0.0, max(y for _, y in points))

    def x(self, value):
        return self.left + PANEL_WIDTH * (value - self.x_low) / (self.x_high - self.x_low)

    def y(self, value):
        return self.top + PANEL_HEIGHT * (1 - (value - self.low) / (self.high - self.low))

    def axes(self):
        bottom = self.top + PANEL_HEIGHT
        step = nice_step(self.high - self.low)
        for i in range(int((self.high - self.low) / step + 1e-9) + 1):
            value = self.low + i * step
            yield (f'<path d="M{self.left} {self.y(value):.1f}h{PANEL_WIDTH}" stroke="#d4d4d4"/>'
                   f'<text x="{self.left - 6}" y="{self.y(value) + 4:.1f}" '
                   f'text-anchor="end">{value:g}</text>')
        ticks = self.x_ticks
        if ticks is None:
            step = nice_step(self.x_high - self.x_low)
            ticks = [(self.x_low + i * step, f'{self.x_low + i * step:g}')
                     for i in range(int((self.x_high - self.x_low) / step + 1e-9) + 1)]
        for value, words in ticks:
            yield (f'<path d="M{self.x(value):.1f} {bottom}v4" stroke="{INK}"/>'
                   f'<text x="{self.x(value):.1f}" y="{bottom + 17}" '
                   f'text-anchor="middle">{words}</text>')
        yield f'<path d="M{self.left} {bottom}h{PANEL_WIDTH}" stroke="{INK}"/>'
        yield (f'<text x="{self.left + PANEL_WIDTH / 2:.0f}" y="{bottom + 33}" '
               f'text-anchor="middle">{escape(self.x_title)}</text>')
        yield f'<text x="{self.left}" y="{self.top - 8}">{escape(self.y_title)}</text>'

    def draw(self):
        yield from self.axes()
        for i, (name, line) in enumerate(self.lines):
            path = ' '.join(f'{self.x(x):.1f},{self.y(y):.1f}' for x, y in line)
            yield (f'<polyline points="{path}" fill="none" stroke="{COLOURS[i]}" stroke-width="1.8" '
                   f'stroke-dasharray="{DASHES[i]}"/>')
            if len(self.lines) > 1:
                x, y = self.left + PANEL_WIDTH - 200 + 100 * (i % 2), self.top + 96 + 16 * (i // 2)
                yield (f'<path d="M{x} {y}h22" stroke="{COLOURS[i]}" stroke-width="1.8" '
                       f'stroke-dasharray="{DASHES[i]}"/>'
                       f'<text x="{x + 27}" y="{y + 4}">{escape(name)}</text>')


def place(i):
    return LEFT + (PANEL_WIDTH + GAP) * (i % 2), TOP + (PANEL_HEIGHT + 80) * (i // 2)


def svg(title, panels):
    height = TOP + 2 * (PANEL_HEIGHT + 80) - 20
    lines = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" '
             f'font-family="sans-serif" font-size="12" fill="{INK}">',
             f'<rect width="{WIDTH}" height="{height}" fill="#ffffff"/>',
             f'<text x="20" y="24" font-size="15">{escape(title)}</text>']
    for panel in panels:
        lines += panel.draw()
    return '\n'.join(lines + ['</svg>', ''])


def responses(crop, table):
    """Four panels of a crop, of CSV text with the columns crop, curve, x, y."""
    rows = [row for row in csv.DictReader(table.splitlines()) if row['crop'] == crop]
    title, curves = RESPONSES[crop]
    panels = []
    for i, (curve, x_title, y_title) in enumerate(curves):
        line = [(float(row['x']), float(row['y'])) for row in rows if row['curve'] == curve]
        panels.append(Panel([(curve, line)], *place(i), x_title, y_title))
    return svg(title, panels)


def season(table):
    """Four panels of a season, of the CSV text of explain."""
    rows = list(csv.DictReader(table.splitlines()))
    title, groups = SEASON
    ticks = [(i, row['date'][:2]) for i, row in enumerate(rows) if row['date'].endswith('-01')]
    panels = []
    for i, (columns, y_title) in enumerate(groups):
        lines = [(column.removeprefix('f_'), [(j, float(row[column]))
                                              for j, row in enumerate(rows)]) for column in columns]
        panels.append(Panel(lines, *place(i), 'first of the month', y_title, ticks))
    return svg(title, panels)


def figure(which, table):
    return season(table) if which == 'season' else responses(which, table)


if __name__ == '__main__':
    sys.stdout.write(figure(sys.argv[1], Path(sys.argv[2]).read_text(encoding='utf-8')))
