# SPDX-License-Identifier: Apache-2.0
"""Draws the calibration table as SVG: measured and accepted beside predicted. Same table, same bytes.

usage: figure.py alga|kelp TABLE.csv > FIGURE.svg
"""
import csv
import sys
from html import escape
from pathlib import Path

LEFT, RIGHT, WIDTH = 440, 880, 900
ROW, AXIS, GAP = 24, 22, 14
TOP = 64
TITLES = {'alga': 'Warm-temperate red alga', 'kelp': 'Sugar kelp'}
INK, MODEL, BAND = '#222222', '#2f4b7c', '#d9dee6'


def numbers(row, *names):
    return [float(row[name]) for name in names if row[name]]


def limits(rows):
    """The axis of rows that share a unit: all that is drawn, and a little more."""
    values = [0.0]
    for row in rows:
        values += numbers(row, 'measured', 'accept_low', 'accept_high', 'predicted', 'p10', 'p90')
    low, high = min(values), max(values)
    margin = 0.05 * (high - low)
    return low - margin if low < 0 else 0.0, high + margin


def step_of(span):
    return next(step for step in (0.5, 1, 2, 5, 10) if span / step <= 12)


class Panel:
    """The rows of one unit, from y downwards."""

    def __init__(self, rows, y):
        self.rows, self.y = rows, y
        self.low, self.high = limits(rows)
        self.bottom = y + ROW * len(rows)
        self.end = self.bottom + AXIS + GAP

    def x(self, value):
        return LEFT + (RIGHT - LEFT) * (value - self.low) / (self.high - self.low)

    def axis(self):
        step = step_of(self.high - self.low)
        tick = -int(-self.low / step) * step if self.low < 0 else 0.0
        while tick <= self.high:
            x = self.x(tick)
            yield (f'<path d="M{x:.1f} {self.y}V{self.bottom}" stroke="#c8c8c8" '
                   f'stroke-width="{1.2 if tick == 0 else 0.5}"/>')
            yield f'<text x="{x:.1f}" y="{self.bottom + 14}" text-anchor="middle">{tick:g}</text>'
            tick += step
        yield (f'<text x="{LEFT - 10}" y="{self.bottom + 14}" text-anchor="end">'
               f'{escape(self.rows[0]["unit"])}</text>')

    def mark(self, row, y):
        low = float(row['accept_low'] or self.low)
        high = float(row['accept_high'] or self.high)
        yield (f'<rect x="{self.x(low):.1f}" y="{y - 8}" '
               f'width="{self.x(high) - self.x(low):.1f}" height="16" fill="{BAND}"/>')
        for value in numbers(row, 'measured'):
            x = self.x(value)
            yield f'<path d="M{x:.1f} {y - 6}l5 6l-5 6l-5 -6z" fill="{INK}"/>'
        p10, p90, predicted = (self.x(v) for v in numbers(row, 'p10', 'p90', 'predicted'))
        fill = MODEL if row['predicted_is'] == 'inside' else '#ffffff'
        yield f'<path d="M{p10:.1f} {y}H{p90:.1f}" stroke="{MODEL}" stroke-width="2"/>'
        yield (f'<circle cx="{predicted:.1f}" cy="{y}" r="5" fill="{fill}" stroke="{MODEL}" '
               'stroke-width="2"/>')

    def draw(self):
        yield from self.axis()
        for i, row in enumerate(self.rows):
            y = self.y + ROW * i + ROW // 2
            yield (f'<text x="{LEFT - 10}" y="{y + 4}" text-anchor="end">'
                   f'{escape(row["source"])}: {escape(row["quantity"])}</text>')
            yield from self.mark(row, y)


def panels(rows):
    y = TOP
    for unit in dict.fromkeys(row['unit'] for row in rows):
        panel = Panel([row for row in rows if row['unit'] == unit], y)
        y = panel.end
        yield panel


def legend():
    y = 44
    yield f'<rect x="20" y="{y - 8}" width="24" height="16" fill="{BAND}"/>'
    yield f'<text x="50" y="{y + 4}">accepted</text>'
    yield f'<path d="M130 {y - 6}l5 6l-5 6l-5 -6z" fill="{INK}"/>'
    yield f'<text x="142" y="{y + 4}">measured</text>'
    for x, fill, words in ((230, MODEL, 'predicted, inside what is accepted'),
                           (475, '#ffffff', 'predicted, outside it')):
        yield (f'<circle cx="{x}" cy="{y}" r="5" fill="{fill}" stroke="{MODEL}" '
               'stroke-width="2"/>')
        yield f'<text x="{x + 12}" y="{y + 4}">{words}</text>'
    yield f'<path d="M630 {y}h24" stroke="{MODEL}" stroke-width="2"/>'
    yield f'<text x="660" y="{y + 4}">P10 to P90 of the constants\' ranges</text>'


def figure(crop, table):
    """SVG text of a crop's table, given as CSV text."""
    rows = list(csv.DictReader(table.splitlines()))
    drawn = list(panels(rows))
    height = drawn[-1].end
    lines = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" '
             f'font-family="sans-serif" font-size="12" fill="{INK}">',
             f'<rect width="{WIDTH}" height="{height}" fill="#ffffff"/>',
             f'<text x="20" y="24" font-size="15">{TITLES[crop]}: published trials and '
             'the model, no constant tuned to a trial</text>', *legend()]
    for panel in drawn:
        lines += panel.draw()
    return '\n'.join(lines + ['</svg>', ''])


if __name__ == '__main__':
    sys.stdout.write(figure(sys.argv[1], Path(sys.argv[2]).read_text(encoding='utf-8')))
