# SPDX-License-Identifier: Apache-2.0
"""Negative controls: the program is broken on purpose, one promise at a time, and the campaign that
guards the promise must find fault with it; the same cases must pass on the program as it is.

The patches go into a copy of the sources with a build of its own, in the work folder.

usage: controls.py SOURCE_FOLDER WORK_FOLDER [NAME...]
"""
import os
import re
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from scratch_build import ScratchBuild, run  # noqa: E402

FAILED = re.compile(r'FAIL|Falsifiable|test cases: .* failed', re.M)


def script(name, *tests, **settings):
    """A campaign in Python, with fewer or with chosen cases."""
    return 'bin/tidelot', name, tests, {key: str(value) for key, value in settings.items()}


def cases(target, tags, **settings):
    """Cases of a test program of the build."""
    return target, target, (tags,), {key: str(value) for key, value in settings.items()}


# name: (file, what stands there, what is put in its place, campaign)
CONTROLS = {
    'a failed write is taken for done': (
        'src/report/folder/os_file.cpp',
        ('      fail(path, "write", errno);', 'if (found < 0 || static_cast<std::uintmax_t>(found) != written)'),
        ('      return;', 'if (found < 0)'),
        script('faults/write_faults_test.py', 'test_no_fault_loses_or_halves_results', TIDELOT_FAULTS=24,
               TIDELOT_FAULT_SEED=2)),
    'a full disk keeps what was begun': (
        'src/report/folder/os_file.cpp',
        ('  std::filesystem::remove_all(path, ignored);',), ('  static_cast<void>(path);',),
        script('faults/full_disk_test.py')),
    'a failed sync is taken for done': (
        'src/report/folder/os_file.cpp',
        ('::fsync(file.get()) != 0',), ('::fsync(file.get()) > 0',),
        script('faults/write_faults_test.py', 'test_no_fault_loses_or_halves_results', TIDELOT_FAULTS=24)),
    'files are not synced': (
        'src/report/folder/os_file.cpp',
        ('::fsync(file.get()) != 0',), ('file.get() < 0',),
        script('faults/power_cut_test.py', TIDELOT_CUTS=24)),
    'run.json is moved first': (
        'src/report/folder/output_folder.cpp',
        ('{ return name != kRunJson; }',), ('{ return name == kRunJson; }',),
        script('faults/power_cut_test.py', TIDELOT_CUTS=24)),
    'earlier results are not brought back': (
        'src/report/folder/folder_owner.cpp',
        ('      bring_back(folder, entry);',), ('',),
        script('faults/power_cut_test.py', TIDELOT_CUTS=24)),
    'a stopped run leaves its work folder': (
        'src/report/folder/output_folder.cpp',
        ('  os::discard(work_);\n  os::unlock(lock_);',), ('  os::unlock(lock_);',),
        script('faults/write_faults_test.py', 'test_no_fault_loses_or_halves_results', TIDELOT_FAULTS=24)),
    'tiles are believed without their sums': (
        'src/run/resume/tile_record.cpp',
        ('return sum_of(tile, cells, counted) == sum;',), ('return !cells.empty() || sum != 0;',),
        script('cli/resume_test.py', 'test_spoilt_tiles_are_computed_again')),
    'tiles of another plan are believed': (
        'src/run/resume/tile_ledger.cpp',
        (' || line != first_line(identity_)',), ('',),
        script('cli/resume_test.py', 'test_what_another_plan_left_is_not_taken')),
    'signals are not heard': (
        'src/cli/signals.cpp',
        ('{ caught.store(signal); }',), ('{ caught.store(signal * 0); }',),
        script('faults/signals_test.py', 'test_at_any_instant', TIDELOT_SIGNALS=1)),
    'files are decoded without a child': (
        'src/geoio/rehearsal.cpp',
        ('  const pid_t child = ::fork();\n  if (child < 0) {\n    throw input',
         'for (int i = 0; board.good() && i < children; ++i)'),
        ('  decode();\n  return;\n  const pid_t child = ::fork();\n  if (child < 0) {\n    throw input',
         'for (int i = children; board.good() && i < children; ++i)'),
        script('fuzz/decoder_test.py')),
    'memory that is short is nobody\'s fault': (
        'src/cli/main.cpp',
        ('return say(static_cast<int>(Fault::plan), kOutOfMemory);',),
        ('return say(5 + static_cast<int>(Fault::plan), kOutOfMemory);',),
        script('faults/allocations_test.py', TIDELOT_ALLOCATIONS=12)),
    'random numbers go by turn, not by place': (
        'src/core/draws.cpp',
        ('  using Generator = r123::Philox4x32;', 'place.row, index}}'),
        ('  using Generator = r123::Philox4x32;\n  static thread_local std::uint32_t turn = 0;\n  turn += 1;',
         'place.row, index + turn}}'),
        script('variants/same_bytes_test.py', TIDELOT_WAYS=8)),
    'packed numbers are not unpacked': (
        'src/geoio/raster_mask.cpp', ('raw * scale_ + offset_',), ('raw + 0.0 * offset_',),
        script('variants/same_bay_test.py', 'test_packed_whole_numbers')),
    'a setback reaches too far': (
        'src/criteria/closed_mask.cpp',
        ('feature.setback_m * scale, runs',), ('(feature.setback_m + 2.0) * scale, runs',),
        cases('properties', 'rules: a shape of two rings*')),
    'degrees go to the projection latitude first': (
        'src/geoio/projector.cpp', ('proj_normalize_for_visualization(context_.get(), plain.get())',),
        ('proj_clone(context_.get(), plain.get())',),
        cases('published', 'positions agree with cs2cs*')),
    'addresses are asked': (
        'src/geoio/start.cpp',
        ('  refuse_every_fetch();',), ('',),
        script('security/reach_test.py', 'test_hostile_inputs_reach_nothing', TIDELOT_REACH=1000)),
    'markup is not escaped': (
        'src/report/words/escape.cpp',
        ('return replaced(text, html_entity);',), ('return std::string(text);',),
        script('security/escape_test.py', 'test_payloads')),
    'formulas stay formulas': (
        'src/report/tables/csv_cells.cpp',
        ('begins_formula(raw.substr(i))',), ('begins_formula("")',),
        script('security/escape_test.py', 'test_payloads', TIDELOT_PAYLOADS=60)),
    'a score is a little higher': (
        'src/core/curve.cpp',
        ('  const double y = a.y +',), ('  const double y = 1e-3 + a.y +',),
        script('golden/golden_test.py')),
    'work files are left behind': (
        'src/report/folder/output_folder.cpp',
        ('  done_ = true;\n  os::discard(work_);', '  os::discard(work_);\n  os::unlock(lock_);'),
        ('  done_ = true;', '  os::unlock(lock_);'),
        script('faults/soak_test.py')),
}


def tried(scratch, campaign):
    """Does the campaign pass, and what does it say?"""
    target, name, words, settings = campaign
    environment = {**os.environ, **settings}
    if name.endswith('.py'):
        # A choice of tests: the files' own call of unittest.main leaves no word for them.
        path = scratch.source / 'tests' / name
        chosen = f'sys.argv = [{str(path)!r}, {str(scratch.program)!r}, {str(scratch.source)!r}]; ' \
                 f'sys.path.insert(0, {str(path.parent)!r}); import {path.stem} as m; import unittest; ' \
                 f'unittest.main(module=m, argv=["x"{"".join(f", {chr(34)}-k{chr(34)}, {w!r}" for w in words)}])'
        done = run([sys.executable, '-B', '-c', f'import sys; {chosen}'], env=environment, timeout=900)
    else:
        done = run([scratch.build / 'tests' / name, *words], env=environment, timeout=900)
    return done.returncode == 0, done.stdout + done.stderr


def patched(path, old, new):
    """Writes the broken file; its text as it was."""
    text = whole = path.read_text()
    for before, after in zip(old, new):
        if text.count(before) < 1:
            raise LookupError(f'{path}: holds no {before!r} any more; mend the control')
        text = text.replace(before, after)
    path.write_text(text)
    return whole


def control(scratch, name):
    """What became of one: a word, and whether it is as it must be."""
    file, old, new, campaign = CONTROLS[name]
    try:
        whole = patched(scratch.source / file, old, new)
    except LookupError as problem:
        return str(problem), False
    try:
        good, said = scratch.made(campaign[0])
        if not good:
            return f'does not build: {said}', False
        passed, said = tried(scratch, campaign)
    finally:
        (scratch.source / file).write_text(whole)
    logs = scratch.work / 'logs'
    logs.mkdir(exist_ok=True)
    (logs / (re.sub(r'\W+', '-', name) + '.log')).write_text(said)
    if passed:
        return 'NOT FOUND', False
    return ('found', True) if FAILED.search(said) else (f'ended oddly: {said[-500:]}', False)


def whole_program_passes(scratch, names):
    """A control means something only where the same cases pass on the program as it is."""
    campaigns = {repr(CONTROLS[name][3]): CONTROLS[name][3] for name in names}
    good = True
    for campaign in campaigns.values():
        built, said = scratch.made(campaign[0])
        passed, said = tried(scratch, campaign) if built else (False, said)
        good = good and passed
        print(f'{"passes" if passed else "FAILS"} unbroken: {campaign[1]} {campaign[2]} {campaign[3]}'
              f'{"" if passed else said[-1500:]}', flush=True)
    return good


def main(source, work, names):
    scratch = ScratchBuild(source, work)
    good = True
    for name in names:
        begin = time.monotonic()
        word, as_it_must = control(scratch, name)
        good = good and as_it_must
        print(f'{word:10} {CONTROLS[name][3][1]:32} {name} ({time.monotonic() - begin:.0f} s)', flush=True)
    return 0 if whole_program_passes(scratch, names) and good else 1


if __name__ == '__main__':
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3:] or list(CONTROLS)))
