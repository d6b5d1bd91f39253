# SPDX-License-Identifier: Apache-2.0
"""A copy of the sources that may be broken, with a build of its own: WORK/source and its build/, as it
lies in any copy, so that ccache knows what it compiled there."""
import filecmp
import os
import shutil
import subprocess
from pathlib import Path


def run(command, **more):
    return subprocess.run([str(word) for word in command], capture_output=True, text=True, **more)


class ScratchBuild:
    def __init__(self, source, work):
        self.origin, self.work = Path(source).resolve(), Path(work).resolve()
        self.source = self.work / 'source'
        self.build = self.source / 'build'
        self.program = self.build / 'bin' / 'tidelot'
        self.work.mkdir(parents=True, exist_ok=True)
        self.copy_sources()
        launcher = ['-DCMAKE_CXX_COMPILER_LAUNCHER=ccache'] if shutil.which('ccache') else []
        run(['cmake', '-S', self.source, '-B', self.build, '-G', 'Ninja', '-DTIDELOT_TESTS=ON',
             *launcher], check=True)

    def copy_sources(self):
        """What git knows, and what is new beside it."""
        listed = run(['git', '-C', self.origin, 'ls-files', '-co', '--exclude-standard'], check=True)
        for name in listed.stdout.splitlines():
            from_, to = self.origin / name, self.source / name
            # What is as it was keeps its time, and what was left broken gets a new one.
            if from_.is_file() and not (to.is_file() and filecmp.cmp(from_, to, shallow=False)):
                to.parent.mkdir(parents=True, exist_ok=True)
                shutil.copy(from_, to)

    def made(self, *targets):
        """Was it built, and what was said?"""
        done = run(['ninja', '-C', self.build, '-j', os.cpu_count(), *targets])
        return done.returncode == 0, done.stdout[-2000:]
