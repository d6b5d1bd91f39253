# SPDX-License-Identifier: Apache-2.0
"""What the build of a program says of it: whether it is under a sanitizer, and how patient to be.

The address sanitizer maps terabytes and keeps what is freed: a ceiling of memory then measures it and
not the program, so tests of ceilings leave out what they would put under one.
"""
import os
import re
from pathlib import Path

WHY = 'a sanitizer maps terabytes: a ceiling of memory would measure it, not the program'


def cached(program, name):
    """A value of the build's cache, "" where it has none."""
    cache = Path(program).resolve().parent.parent / 'CMakeCache.txt'
    found = re.search(rf'(?m)^{name}:\w+=(.*)$', cache.read_text()) if cache.is_file() else None
    return found.group(1) if found else ''


def is_sanitized(program):
    return cached(program, 'TIDELOT_SANITIZE') != ''


def patience(program):
    """How many times as long as usual the program may take."""
    return int(cached(program, 'TIDELOT_PATIENCE') or 1)


def without_leaks(environment=None):
    """An environment in which the leak sanitizer does not look."""
    environment = dict(os.environ if environment is None else environment)
    if 'ASAN_OPTIONS' in environment:
        environment['ASAN_OPTIONS'] += ':detect_leaks=0'
    return environment


def traced(environment=None):
    """The environment of a program that a tracer runs. The leak sanitizer is one itself, and a
    process has one at most; a library that is loaded before the address sanitizer's is meant to be."""
    environment = without_leaks(environment)
    if 'ASAN_OPTIONS' in environment:
        environment['ASAN_OPTIONS'] += ':verify_asan_link_order=0'
    return environment
