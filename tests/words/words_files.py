# SPDX-License-Identifier: Apache-2.0
"""Writes what follows from the words of the command line: docs/user/commands.md and the completions
of bash, zsh and fish in scripts/completions. Same words, same bytes.

usage: cli_words | words_files.py SOURCE_FOLDER
"""
import json
import sys
from pathlib import Path

FILES = {'PLAN': 'file', 'PLAN PLAN...': 'file', 'DIR': 'folder'}  # what a shell can complete
NOTE = 'Made by scripts/command-files from the words that tidelot parses.'


def positional(each):
    return each['text'] if each['required'] else f'[{each["text"]}]'


def spelt(option):
    return f'--{option["name"]}' + (f' {option["text"]}' if option['takes'] else '')


def synopsis(command):
    options = [spelt(option) if option['required'] else f'[{spelt(option)}]'
               for option in command['options'] if option['name'] != 'help']
    return ' '.join(['tidelot', command['name'], *map(positional, command['positionals']), *options])


def lower(text):
    return text[:1].lower() + text[1:]


def page(words):
    first, *rest = words['description'].split('\n')
    lines = [f'# The commands\n\n{first} {" ".join(rest)}\n',
             f'{NOTE} `tidelot --help` and `tidelot COMMAND --help` print the same.\n']
    for command in words['commands']:
        lines += [f'## tidelot {command["name"]}\n', f'{command["description"]}.\n',
                  f'```\n{synopsis(command)}\n```\n', '| word | is |', '|---|---|']
        lines += [f'| `{each["text"]}` | {lower(each["description"])} |'
                  for each in command['positionals']]
        lines += [f'| `{spelt(each)}` | {lower(each["description"])} |'
                  for each in command['options']]
        lines.append('')
    lines += ['Results go to files, the summary to standard output, errors and warnings to standard '
              'error: [messages](troubleshooting.md), [exit status](outputs.md#exit-status).', '']
    return '\n'.join(lines)


def bash(words):
    names = ' '.join(command['name'] for command in words['commands'])
    cases = '\n'.join(
        f'    {command["name"]}) words="{" ".join("--" + o["name"] for o in command["options"])}" ;;'
        for command in words['commands'])
    folders = '|'.join(sorted({f'--{o["name"]}' for command in words['commands']
                               for o in command['options'] if FILES.get(o['text']) == 'folder'}))
    values = '|'.join(sorted({f'--{o["name"]}' for command in words['commands']
                              for o in command['options'] if o['takes'] and o['text'] not in FILES}))
    return f'''# SPDX-License-Identifier: Apache-2.0
# {NOTE}
_tidelot() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD - 1]}} words=""
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    mapfile -t COMPREPLY < <(compgen -W "{names} --help --version" -- "$word")
    return
  fi
  case $before in
    {folders})
      mapfile -t COMPREPLY < <(compgen -d -- "$word")
      return
      ;;
    {values}) return ;;
  esac
  case ${{COMP_WORDS[1]}} in
{cases}
    *) return ;;
  esac
  if [[ $word == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
  else
    mapfile -t COMPREPLY < <(compgen -f -- "$word")
  fi
}}
complete -o filenames -F _tidelot tidelot
'''


def quoted(text):
    return text.replace("'", "'\\''").replace('[', '\\[').replace(']', '\\]').replace(':', '\\:')


def zsh_action(text):
    return {'file': '_files', 'folder': '_files -/'}.get(FILES.get(text), ' ')


def zsh(words):
    lines = ['#compdef tidelot', '# SPDX-License-Identifier: Apache-2.0', f'# {NOTE}', '_tidelot() {',
             '  if ((CURRENT == 2)); then', '    local -a commands=(']
    lines += [f"      '{command['name']}:{quoted(command['description'])}'"
              for command in words['commands']]
    lines += ['    )', "    _describe 'command' commands", '    return', '  fi',
              '  local name=$words[2]', '  shift words', '  ((CURRENT--))', '  case $name in']
    for command in words['commands']:
        lines.append(f'    {command["name"]})')
        lines.append('      _arguments \\')
        specs = [f"'--{o['name']}[{quoted(o['description'])}]"
                 + (f":{quoted(o['text'])}:{zsh_action(o['text'])}" if o['takes'] else '') + "'"
                 for o in command['options']]
        specs += [f"'{'*' if p['many'] else 1}:{quoted(p['text'])}:{zsh_action(p['text'])}'"
                  for p in command['positionals']]
        lines += [f'        {spec}' + (' \\' if spec is not specs[-1] else '') for spec in specs]
        lines.append('      ;;')
    return '\n'.join([*lines, '  esac', '}', '_tidelot "$@"', ''])


def fish_quoted(text):
    return text.replace('\\', '\\\\').replace("'", "\\'")


def fish(words):
    lines = ['# SPDX-License-Identifier: Apache-2.0', f'# {NOTE}', 'complete -c tidelot -f',
             "complete -c tidelot -n __fish_use_subcommand -l version -d 'Print the version'"]
    for command in words['commands']:
        name = command['name']
        lines.append(f'complete -c tidelot -n __fish_use_subcommand -a {name} '
                     f"-d '{fish_quoted(command['description'])}'")
        seen = f"-n '__fish_seen_subcommand_from {name}'"
        if any(FILES.get(p['text']) for p in command['positionals']):
            lines.append(f'complete -c tidelot {seen} -F')
        for o in command['options']:
            takes = (' -r -F' if FILES.get(o['text']) else ' -x') if o['takes'] else ''
            lines.append(f"complete -c tidelot {seen} -l {o['name']}{takes} "
                         f"-d '{fish_quoted(o['description'])}'")
    return '\n'.join([*lines, ''])


def files(printed):
    """{path below the source folder: text} of what cli_words prints."""
    words = json.loads(printed)
    return {'docs/user/commands.md': page(words),
            'scripts/completions/tidelot.bash': bash(words),
            'scripts/completions/_tidelot': zsh(words),
            'scripts/completions/tidelot.fish': fish(words)}


if __name__ == '__main__':
    for name, text in files(sys.stdin.read()).items():
        (Path(sys.argv[1]) / name).write_text(text, encoding='utf-8')
