# SPDX-License-Identifier: Apache-2.0
"""Nothing of the environment stands in what a run leaves, and nothing that a plan says reaches a
shell."""
import os
import re
import shutil
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
from guarded import SOURCE, Guarded  # noqa: E402

SECRET = 'hunter2-7f3a'
NAMES = ('AWS_SECRET_ACCESS_KEY', 'AWS_SESSION_TOKEN', 'GDAL_HTTP_USERPWD', 'GDAL_HTTP_HEADERS',
         'GDAL_HTTP_BEARER', 'PGPASSWORD', 'TIDELOT_TOKEN', 'USER', 'LOGNAME', 'HOSTNAME')
SHELLS = re.compile(r'(?<![\w:.])(?:std::)?(?:system|popen|execl|execlp|execle|execvp|execvpe|wordexp'
                    r'|posix_spawnp)\(|"/bin/(?:ba|da)?sh"|"sh"')


class Secrets(Guarded):
    def test_the_environment_is_not_told(self):
        self.plan()
        out = self.scouted(env={**os.environ, **{name: SECRET for name in NAMES}})
        files = [p for p in out.rglob('*') if p.is_file()]
        self.assertIn('run.json', [p.name for p in files])
        for file in files:
            self.assertNotIn(SECRET.encode(), file.read_bytes(), file.name)

    def test_no_word_of_a_plan_reaches_a_shell(self):
        mark = self.top / 'touched'
        word = f'$(touch {mark}) `touch {mark}` ; touch {mark} | touch {mark} & touch {mark}'
        (self.bay / f'a;touch x;$(touch y).tif').write_bytes((self.bay / 'depth.tif').read_bytes())
        self.plan(('"Little bay"', f'"{word}"'), ('name = "eelgrass"', f'name = "{word}"\nrule = "{word}"'),
                  ('"depth.tif"', '"a;touch x;$(touch y).tif"'))
        sheets = ['--sheets', self.top / 'a;touch x;$(touch y)'] if shutil.which('chromium') else []
        done = self.tidelot('scout', '--out', self.top / 'out', *sheets, cwd=self.top)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertFalse(mark.exists())
        for folder in (self.top, self.bay):
            self.assertFalse((folder / 'x').exists() or (folder / 'y').exists())

    def test_the_sources_call_no_shell(self):
        found = []
        for file in sorted((SOURCE / 'src').rglob('*.?pp')):
            for number, line in enumerate(file.read_text().splitlines(), 1):
                if SHELLS.search(line.split('//')[0]):
                    found.append(f'{file.name}:{number}: {line.strip()}')
        self.assertEqual(found, [])
        for bad in ('std::system("x")', 'popen(a, b)', 'execvp(x, y)', 'run({"sh", "-c"})'):
            self.assertTrue(SHELLS.search(bad), bad)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)
