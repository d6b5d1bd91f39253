# SPDX-License-Identifier: Apache-2.0
"""Where a plan's files may lie: in its own folder, whatever leads out of it (an absolute path, "..",
a link, a link beside a file), unless [run] allow = ["outside"] says otherwise."""
import os
import shutil
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
from guarded import Guarded, OUTSIDE  # noqa: E402

TOLD = 'allow = ["outside"]'
KEYS = [  # what stands in the plan, the key, and how the line with a file outside is written
    ('file = "depth.tif"', 'depth.file', 'file = "{}"'),
    ('file = "temperature.nc"', 'water.temperature.file', 'file = "{}"'),
    ('file = "closed.gpkg"', 'closed "eelgrass".file', 'file = "{}"'),
    ('cell_m = 100', 'area.outline', 'cell_m = 100\noutline = "{}"'),
    ('profile = "warm-red-alga"', 'crop.profile', 'profile = "{}"'),
    ('profile = "warm-red-alga"', 'report.labels', 'profile = "warm-red-alga"\n[report]\nlabels = "{}"'),
]


class Places(Guarded):
    def setUp(self):
        super().setUp()
        self.away = self.top / 'away'
        shutil.copytree(self.bay, self.away)
        (self.bay / 'x').mkdir()

    def out_by(self, name):
        """The name of a file of the other folder, in every spelling that leaves this one."""
        return [f'../away/{name}', str(self.away / name), f'x/../../away/{name}']

    def test_a_name_that_leaves_is_the_plans_fault(self):
        for old, key, new in KEYS:
            name = 'depth.tif' if 'file' not in old else old.split('"')[1]
            name = name if 'profile' not in old else 'words.toml'
            for path in self.out_by(name):
                with self.subTest(key=key, path=path):
                    self.plan((old, new.format(path)))
                    self.refused(2, 'plan.toml:', f'{key} = "{path}"', TOLD)

    def test_a_month_that_leaves(self):
        shutil.copy(self.bay / 'kd.tif', self.away / 'kd_01.tif')
        self.plan(('"kd.tif"', '"../away/kd_{month}.tif"'))
        self.refused(2, 'water.light.file', TOLD)

    def test_a_link_that_leaves_is_the_files_fault(self):
        for name, key in (('depth.tif', 'depth'), ('temperature.nc', 'water.temperature'),
                          ('closed.gpkg', 'closed "eelgrass"'), ('area.shp', 'closed "growing area"')):
            with self.subTest(name):
                (self.bay / name).unlink()
                (self.bay / name).symlink_to(self.away / name)
                self.plan()
                self.refused(3, f'{key}: {name}: ', TOLD)
                (self.bay / name).unlink()
                shutil.copy(self.away / name, self.bay / name)

    def test_a_folder_that_is_a_link(self):
        (self.bay / 'layers').symlink_to(self.away)
        self.plan(('"depth.tif"', '"layers/depth.tif"'))
        self.refused(3, 'depth: layers/depth.tif: ', TOLD)

    def test_a_link_beside_a_file(self):
        (self.bay / 'area.dbf').unlink()
        (self.bay / 'area.dbf').symlink_to(self.away / 'area.dbf')
        self.plan()
        self.refused(3, 'closed "growing area": area.shp: area.dbf beside it: ', TOLD)

    def test_a_profile_and_labels_behind_a_link(self):
        for name, line in (('mine.toml', ('"warm-red-alga"', '"mine.toml"')),
                           ('words.toml', ('[crop]', '[report]\nlabels = "words.toml"\n[crop]'))):
            with self.subTest(name):
                (self.away / name).write_text('[answer]\n')
                (self.bay / name).symlink_to(self.away / name)
                self.plan(line)
                result = self.tidelot('check')
                self.assertIn(result.returncode, (2, 3), result.stderr)
                self.assertIn(TOLD, result.stderr)

    def test_allowed(self):
        for path in self.out_by('depth.tif'):
            self.plan(('"depth.tif"', f'"{path}"'), OUTSIDE)
            self.scouted()
        (self.bay / 'depth.tif').unlink()
        (self.bay / 'depth.tif').symlink_to(self.away / 'depth.tif')
        self.plan(OUTSIDE)
        self.scouted()

    def test_what_stays_inside_is_nobodys_fault(self):
        (self.bay / 'in').mkdir()
        shutil.copy(self.bay / 'depth.tif', self.bay / 'in' / 'there.tif')
        (self.bay / 'link.tif').symlink_to('in/there.tif')
        for path in ('in/there.tif', './in/../in/there.tif', f'../{self.bay.name}/in/there.tif',
                     str(self.bay / 'in' / 'there.tif'), 'link.tif'):
            with self.subTest(path):
                self.plan(('"depth.tif"', f'"{path}"'))
                self.scouted()

    def test_a_plan_that_is_reached_by_a_link(self):
        (self.top / 'door').symlink_to(self.bay)
        self.plan()
        self.scouted(self.top / 'door' / 'plan.toml')
        os.chdir(self.top / 'door')
        self.scouted('plan.toml')


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)
