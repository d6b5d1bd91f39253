# SPDX-License-Identifier: Apache-2.0
"""A file that kills the library which reads it is refused, and named.

seeds/hdf5-dies.nc is a NetCDF-4 file of 12.5 kB with a few bits flipped, the 312th that was tried:
HDF5 1.10.8 reads beyond its memory when it opens it."""
import signal
import subprocess
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_bay import PLAN  # noqa: E402
from little_run import LittleBay  # noqa: E402

SEED = Path(__file__).parent / 'seeds' / 'hdf5-dies.nc'
REFUSAL = ('tidelot: water.temperature: temperature.nc: kills the library that reads it '
           f'(signal {int(signal.SIGSEGV)}); ')


class Decoders(LittleBay):
    def setUp(self):
        super().setUp()
        (self.bay / 'temperature.nc').write_bytes(SEED.read_bytes())
        opened = subprocess.run(['gdalinfo', f'NETCDF:{self.bay}/temperature.nc:sst'],
                                capture_output=True)
        if opened.returncode != -signal.SIGSEGV:
            self.skipTest('this HDF5 does not die of the file')

    def test_a_run_refuses_it_and_leaves_nothing(self):
        self.assertIn('file = "temperature.nc"', PLAN)
        line = self.refused(3)
        self.assertTrue(line.startswith(REFUSAL), line)

    def test_check_tells_it_among_the_other_layers(self):
        result = self.tidelot('check')
        self.assertEqual(result.returncode, 3)
        self.assertIn('kills the library that reads it', result.stdout)
        self.assertIn('water.salinity', result.stdout)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)
