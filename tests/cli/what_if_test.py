# SPDX-License-Identifier: Apache-2.0
"""The table of moved distances and limits, against whole runs of plans with the very value moved.

what_if_test.py PROGRAM SOURCE_DIR"""
import csv
import json
import re
import unittest

from bay import Bay, main

LIMITS = (r'^use .*"nutrient"$', '''use = "nutrient"
clearance_m = 1.0
max_depth_m = 7.0
max_current_m_s = 0.2''')
SUITABILITY = (r'^gap_m .*$', 'gap_m = 100\nmin_suitability = 0.9')
NEAR = (r'^\[crop\]$', '''[[near]]
name = "leases"
file = "closed.gpkg"
layer = "leases"
distance_m = 2000
count = 1
effect = "close"
rule = "invented rule 9.1"

[crop]''')
# Of all months but the season's, so that it never closes; and of some that meet it.
WINTER = (r'(?s)(name      = "eelgrass beds".*?setback_m = 30)', r'\1\nmonths = [1, 2]')
SUMMER = (r'(?s)(name      = "main channel".*?setback_m = 45)', r'\1\nmonths = [7, 8]')


def moved(text, key, name, value):
    """The plan's text with one key at another value."""
    if key.startswith(('closed[', 'near[')):
        rule, last = name.split(':')[0], key.split('.')[1]
        pattern = rf'(?s)(name\s+= "{rule}"(?:(?!\[\[).)*?\n{last}\s*= )[0-9.]+'
    else:
        pattern = rf'(\n{key.split(".")[1]}\s*= )[0-9.]+'
    changed, count = re.subn(pattern, rf'\g<1>{value}', text, count=1)
    assert count == 1, (key, name)
    return changed


class WhatIf(Bay):
    draws = 0
    what_if = True

    def outcome(self, plan):
        result, out = self.scout(plan)
        self.assertEqual(result.returncode, 0, result.stderr)
        record = json.loads((out / 'run.json').read_text())
        with open(out / 'sites.csv', newline='') as file:
            rows = list(csv.DictReader(file))
        return record, rows

    def check_against_runs(self, *edits):
        plan = self.plan((r'^count  .*$', 'count = 2'), *edits)
        record, rows = self.outcome(plan)
        table, text = record['what_if'], plan.read_text()
        self.assertEqual(table['open_ha'], record['counts']['open_ha'])
        quiet = text.replace('[report]', '[report]\nwhat_if = "no"')
        areas = moved_sites = 0
        for key in table['keys']:
            for way, factor in (('less', 0.75), ('more', 1.25)):
                with self.subTest(key=key['key'], way=way):
                    told = key[way]
                    value = min(factor * key['value'], 1) if 'suit' in key['key'] else \
                        factor * key['value']
                    self.assertAlmostEqual(told['value'], value)
                    plan.write_text(moved(quiet, key['key'], key['name'], value))
                    found, sites = self.outcome(plan)
                    self.assertIsNone(found['what_if'])
                    self.assertAlmostEqual(told['open_ha'], found['counts']['open_ha'], 6)
                    areas += told['open_ha'] != table['open_ha']
                    if not sites:
                        self.assertIsNone(told['best_site_yield_without_t'])
                        continue
                    printed = sites[0]['yield_without_t']
                    places = len(printed.partition('.')[2])
                    self.assertAlmostEqual(told['best_site_yield_without_t'], float(printed),
                                           delta=0.51 * 10 ** -places)
                    moved_sites += told['best_site_offset_m'] > 1
        return table, areas, moved_sites

    def test_every_key_against_a_run_of_its_own(self):
        table, areas, moved_sites = self.check_against_runs(LIMITS, SUITABILITY, NEAR, WINTER, SUMMER)
        self.assertEqual([key['key'] for key in table['keys']],
                         ['farm.clearance_m', 'farm.max_depth_m', 'farm.max_current_m_s',
                          'closed[0].setback_m', 'closed[1].setback_m', 'closed[2].setback_m',
                          'closed[5].setback_m', 'near[0].distance_m', 'sites.min_suitability'])
        self.assertGreater(areas, 6)           # of 18: this is no table of nothing
        self.assertGreater(moved_sites, 0)
        winter = table['keys'][3]
        self.assertEqual(winter['less']['open_ha'], winter['more']['open_ha'])

    def test_a_setback_of_each_shape_is_moved_with_it(self):
        """The surveyed year serves as a number of metres: 2019 m closes nearly everything."""
        record, _ = self.outcome(self.plan(
            (r'(?s)(name      = "eelgrass beds".*?)setback_m = 30', r'\1setback_field = "surveyed"')))
        key = next(k for k in record['what_if']['keys'] if k['key'] == 'closed[0].setback_field')
        self.assertIsNone(key['value'])
        self.assertGreater(key['less']['open_ha'], record['what_if']['open_ha'])
        self.assertLess(key['more']['open_ha'], record['what_if']['open_ha'])

    def test_the_report_shows_it_or_not(self):
        plan = self.plan()
        _, out = self.scout(plan)
        page = (out / 'report.html').read_text()
        self.assertIn('What if a distance or limit were other', page)
        self.assertIn('main channel: setback', page)
        plan.write_text(plan.read_text().replace('[report]', '[report]\nwhat_if = "no"'))
        _, out = self.scout(plan)
        self.assertNotIn('What if a distance', (out / 'report.html').read_text())

    def test_same_at_any_thread_count(self):
        plan = self.plan(LIMITS, NEAR)
        tables = []
        for threads in ('1', '3'):
            _, out = self.scout(plan, '--threads', threads)
            tables.append(json.loads((out / 'run.json').read_text())['what_if'])
        self.assertEqual(*tables)


if __name__ == '__main__':
    main()
