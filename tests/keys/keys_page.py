# SPDX-License-Identifier: Apache-2.0
"""Writes docs/user/keys.md from the program's own table of keys: same table, same bytes.

A key's meaning and example are what the plan to begin from says beside it; where it has no line of
its own there, the table says what it means.

usage: key_table | keys_page.py > docs/user/keys.md
"""
import json
import re
import sys
import tomllib

HEAD = '''# Every key of the plan

Made from the table that tidelot reads plans with (`scripts/keys-page`); [plan.md](plan.md) says what the tables are for and how they go together. A key that is left out takes its default. "Needed" stands where a plan cannot do without the key once its table is there. A number outside its range is refused: ranges are wide, they catch a slip and judge no farm. Words in quotes are TOML texts; a file is named relative to the plan.
'''

TITLES = {
    '': 'The plan itself',
    'columns': '[water.NAME.columns]',
    'water.*': '[water.NAME], each of the five',
    'criteria.*': '[criteria.NAME], one of your own',
}
# Where else a key's words stand: the key of the same name in another table. Those of a criterion
# of the program's stand in criteria.*, too.
ALSO_IN = {'depth.sources': ['depth'], 'near': ['closed'], 'criteria.*': ['criteria.fishing'],
           'water.*': ['water.temperature', 'water.salinity'], 'water.nitrogen': ['water.*']}
LISTS = {'closed', 'near', 'depth.sources', 'report.marks'}
SUFFIXES = [('_kg_per_year', 'kg a year'), ('_g_per_m', 'g/m'), ('_m_s', 'm/s'), ('_km', 'km'),
            ('_ha', 'ha'), ('_m', 'm'), ('_days', 'days'), ('_months', 'months'), ('_percent', '%')]
COMMENT_COLUMN = 30  # a comment that begins here or later goes on with the one above it


def parts(line):
    """(name, value, comment) of a line that holds a key, in use or not; else None."""
    found = re.match(r'(?:# ?\s*)?([a-z][a-z0-9_]*)\s*= (.*)', line)
    if not found:
        return None
    value, comment = re.match(
        r'((?:"[^"]*"|[^"#\s]|(?<=[,\w\]]) (?! ))+)\s*(.*)', found[2]).groups()
    return found[1], value, comment.lstrip('# ')


def starter_lines(text):
    """{(table, key): [example, comment]} of the plan to begin from."""
    said, table, last = {}, '', None
    for line in text.splitlines():
        header = re.match(r'(?:#\s+)?\[\[?([a-z][a-z_.]*)\]\]?', line)
        if header:
            table, last = header[1], None
            said[table, ''] = ['', line[header.end():].lstrip('# ')]
        elif line.startswith('# Each of the five'):
            table, last = 'water.*', None
        elif found := parts(line):
            name, value, comment = found
            last = said.setdefault((table, name), [value, comment])
        elif last and line.strip().startswith('#') and \
                len(line) - len(line.lstrip('# ')) >= COMMENT_COLUMN:
            last[1] += ' ' + line.lstrip('# ')
        else:
            last = None
    return said


def unit_of(key):
    if key['unit']:
        return key['unit']
    if 'low' not in key or key['kind'] == 'later':
        return ''
    return next((unit for end, unit in SUFFIXES if key['name'].endswith(end)), '')


def number(value):
    """As people write it; the least of a judgement is a ninth."""
    if value == 1 / 9:
        return '1/9'
    return str(int(value)) if value == int(value) else f'{value:g}'


def takes(key):
    """What the value may be."""
    if key['words']:
        words = ', '.join(f'`"{word}"`' for word in key['words'].split('|'))
        return words if key['kind'] == 'one of' else f'{key["kind"]} {words}'
    if 'low' in key:
        return f'{key["kind"]}, {number(key["low"])} to {number(key["high"])}'
    return key['kind']


def default(key):
    if key['required']:
        return '**needed**'
    if not key['default']:
        return 'none'
    return f'`{key["default"]}`: {key["basis"]}' if key['basis'] else f'`{key["default"]}`'


def homes_of(table, keys):
    """The table and those where the words of its keys stand as well."""
    if any(key['table'] == table and key['name'] == 'curve' for key in keys):
        return [table, *ALSO_IN.get(table, ['criteria.*'])]
    return [table, *ALSO_IN.get(table, [])]


def meaning(key, said, keys):
    """The key's words from the table or the starter, or those of its namesakes; what other columns
    say is left out."""
    homes = homes_of(key['table'], keys)
    stated = {each['table']: each['meaning'] for each in keys if each['name'] == key['name']}
    texts = [(home, stated.get(home) or said.get((home, key['name']), ['', ''])[1])
             for home in homes]
    if key['name'] == 'curve' and said.get((key['table'], ''), ['', ''])[1]:
        of = said[key['table'], ''][1]
        name = key['table'].removeprefix('criteria.') + ' ' if of.startswith('of ') else ''
        texts.insert(0, (key['table'], f'score of the {name}{of}'))
    home, text = next((each for each in texts if each[1]), ('', ''))
    if key['required'] or home != key['table']:
        text = re.sub(r'^needed[:;,] ', '', text)
    return re.sub(r' ?\((?:judgement|common practice)\)', '', text)


def is_toml(line):
    try:
        return bool(tomllib.loads(line))
    except tomllib.TOMLDecodeError:
        return False


def example(key, said, keys):
    """The first line of the starter that a plan could hold."""
    homes = homes_of(key['table'], keys)
    lines = [f'{key["name"]} = {said[home, key["name"]][0]}' for home in homes
             if (home, key['name']) in said]
    return next((f'`{line}`' for line in lines if is_toml(line)), '')


def escaped(text):
    return text.replace('|', '\\|')


def rows(table, keys, said):
    for key in keys:
        if key['table'] == table:
            yield '| ' + ' | '.join(escaped(cell) for cell in (
                f'`{key["name"]}`', meaning(key, said, keys), unit_of(key), takes(key),
                default(key), example(key, said, keys))) + ' |'


def title(table):
    return TITLES.get(table) or (f'[[{table}]]' if table in LISTS else f'[{table}]')


def page(printed):
    """The page's text, of what key_table prints."""
    all_of_it = json.loads(printed)
    said = starter_lines(all_of_it['starter'])
    keys = [key for key in all_of_it['keys']
            if key['name'] != '*' and key['kind'] not in ('table', 'list of tables', 'later')]
    text = HEAD
    for table in dict.fromkeys(key['table'] for key in keys):
        text += f'\n## {title(table)}\n\n| key | is | unit | takes | default | example |\n'
        text += '|---|---|---|---|---|---|\n'
        text += '\n'.join(rows(table, keys, said)) + '\n'
    return text


if __name__ == '__main__':
    sys.stdout.write(page(sys.stdin.read()))
