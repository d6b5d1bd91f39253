# SPDX-License-Identifier: Apache-2.0
"""The network: not asked unless the plan says so; then a GeoTIFF in tiles is read by ranges of its
bytes, few of them, and gives the maps that its copy gives."""
import json
import os
import re
import sys
import threading
import time
import unittest
from email.utils import formatdate
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import numpy as np
import rasterio
from rasterio.transform import from_origin

sys.path.insert(0, str(Path(__file__).resolve().parent))
from guarded import Guarded, Listener  # noqa: E402

ALLOW = ('[crop]', '[run]\nallow = ["network"]\n[crop]')
NO_PROXY = {k: v for k, v in os.environ.items() if 'proxy' not in k.lower()}
SIDE = 4096


class Files:
    """A web server with the files of a folder. `asked`: (method, path, bytes sent) of each request.
    whole: it knows no ranges. grows: each answer says that the file was changed anew."""

    def __init__(self, folder, whole=False, grows=False):
        asked = self.asked = []

        class Answer(BaseHTTPRequestHandler):
            protocol_version = 'HTTP/1.1'

            def do_GET(self):
                file = folder / self.path.lstrip('/')
                if not file.is_file():
                    asked.append((self.command, self.path, 0))
                    self.send_error(404)
                    return
                data = file.read_bytes()
                wanted = re.match(r'bytes=(\d+)-(\d*)', self.headers.get('Range', ''))
                first, last = 0, len(data) - 1
                if wanted and not whole:
                    first, last = int(wanted[1]), min(int(wanted[2] or last), last)
                part = data[first:last + 1] if self.command == 'GET' else b''
                asked.append((self.command, self.path, len(part)))
                self.send_response(206 if wanted and not whole else 200)
                changed = file.stat().st_mtime + (len(asked) if grows else 0)
                self.send_header('Last-Modified', formatdate(changed, usegmt=True))
                self.send_header('Content-Length', str(last + 1 - first))
                if not whole:
                    self.send_header('Accept-Ranges', 'bytes')
                if wanted and not whole:
                    self.send_header('Content-Range', f'bytes {first}-{last}/{len(data)}')
                self.end_headers()
                self.wfile.write(part)

            do_HEAD = do_GET

            def log_message(self, *_):
                pass

        self.server = ThreadingHTTPServer(('127.0.0.1', 0), Answer)
        self.address = f'http://127.0.0.1:{self.server.server_port}'

    def __enter__(self):
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        return self

    def __exit__(self, *_):
        self.server.shutdown()
        self.server.server_close()

    def sent(self):
        return sum(count for *_, count in self.asked)


def write_cog(path, west=-30.25, north=41.25, step=0.0001):
    """Depths of a sea of 0.4 degrees in pixels of 10 m: noise, so that it packs badly."""
    depth = np.random.default_rng(5).uniform(5, 9, (SIDE, SIDE)).astype('float32')
    profile = {'driver': 'COG', 'width': SIDE, 'height': SIDE, 'count': 1, 'dtype': 'float32',
               'crs': 'EPSG:4326', 'transform': from_origin(west, north, step, step),
               'compress': 'deflate', 'blocksize': 256}
    with rasterio.open(path, 'w', **profile) as file:
        file.write(depth, 1)


class Network(Guarded):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        cls.web = cls.made / 'web'
        cls.web.mkdir()
        write_cog(cls.web / 'sea.tif')

    def depth_at(self, address, *edits):
        self.plan(('"depth.tif"', f'"{address}"'), *edits)

    def test_not_asked_unless_allowed(self):
        with Listener() as web:
            for path in (web.address + '/sea.tif', 'https://127.0.0.1:9/sea.tif',
                         web.address + '/{month}.tif'):
                self.depth_at(path) if 'month' not in path else self.plan(('"kd.tif"', f'"{path}"'))
                self.refused(2, 'plan.toml:', 'file = "', 'allow = ["network"]', env=NO_PROXY)
            for path in ('/vsicurl/' + web.address + '/sea.tif', '/vsicurl_streaming/' + web.address,
                         '/vsizip/a.zip/b.tif', '/vsis3/a/b.tif', 'ftp://127.0.0.1/a.tif',
                         'GTIFF_DIR:1:/vsicurl/' + web.address + '/sea.tif', 'WMS:' + web.address):
                for edits in ((), (ALLOW,)):
                    self.depth_at(path, *edits)
                    self.refused(2, 'plan.toml:', 'depth.file = "', 'only plain files', env=NO_PROXY)
            self.assertEqual(web.asked, [])

    def test_an_address_with_a_secret_is_refused_and_not_told(self):
        with Listener() as web:
            host = web.address.split('//')[1]
            for path in (f'http://me:hunter2@{host}/a.tif', f'{web.address}/a.tif?key=hunter2',
                         f'{web.address}/a.tif#hunter2'):
                for edits in ((), (ALLOW,)):
                    self.depth_at(path, *edits)
                    told = self.refused(2, 'plan.toml:', 'depth.file', 'no secret', env=NO_PROXY)
                    self.assertNotIn('hunter2', told)
            self.assertEqual(web.asked, [])

    def test_the_same_maps_from_few_bytes(self):
        with Files(self.web) as web:
            self.depth_at(web.address + '/sea.tif', ALLOW)
            out = self.scouted(env=NO_PROXY)
            asked, sent = len(web.asked), web.sent()
        size = (self.web / 'sea.tif').stat().st_size
        print(f'{asked} requests, {sent} of {size} bytes')
        self.assertGreater(sent, 16_384)
        self.assertLess(sent, 0.03 * size)
        self.assertLess(asked, 60)
        self.assertEqual({path for _, path, _ in web.asked}, {'/sea.tif'})
        record = json.loads((out / 'run.json').read_text())
        entry = next(i for i in record['inputs'] if i['file'] == web.address + '/sea.tif')
        self.assertEqual((entry['bytes'], entry['sha256']), (size, None))
        remote = {p.name: p.read_bytes() for p in (out / 'maps').glob('*.tif')}
        (self.bay / 'depth.tif').write_bytes((self.web / 'sea.tif').read_bytes())
        self.plan(ALLOW)
        out = self.scouted()
        self.assertEqual(remote, {p.name: p.read_bytes() for p in (out / 'maps').glob('*.tif')})

    def test_a_larger_file_costs_no_more(self):
        """The bound is of the area's tiles, not of the file: the same from a file cut to a quarter."""
        small = self.web / 'small.tif'
        with rasterio.open(self.web / 'sea.tif') as whole:
            window = rasterio.windows.Window(1536, 1536, 2048, 2048)
            profile = {**whole.profile, 'driver': 'COG', 'width': 2048, 'height': 2048, 'blocksize': 256,
                       'transform': whole.window_transform(window)}
            for key in ('blockxsize', 'blockysize', 'tiled', 'interleave'):
                profile.pop(key, None)
            with rasterio.open(small, 'w', **profile) as file:
                file.write(whole.read(1, window=window), 1)
        counts = []
        for name in ('small.tif', 'sea.tif'):
            with Files(self.web) as web:
                self.depth_at(f'{web.address}/{name}', ALLOW)
                self.tidelot('check', env=NO_PROXY)
                counts.append(web.sent())
        self.assertLess(counts[1], 1.5 * counts[0] + 65_536, counts)

    def test_a_server_that_does_not_answer_well(self):
        with Files(self.web) as web:
            self.depth_at(web.address + '/none.tif', ALLOW)
            self.refused(3, f'depth: {web.address}/none.tif: cannot be read from its server', env=NO_PROXY)
            self.plan(('"outfall.geojson"', f'"{web.address}/sea.tif"'), ALLOW)
            self.refused(3, 'closed "outfall": ', 'only a GeoTIFF is read from a server', env=NO_PROXY)
            self.plan(('[crop]', f'[report]\nlabels = "{web.address}/sea.tif"\n[crop]'), ALLOW)
            self.refused(2, 'only a GeoTIFF is read from a server', env=NO_PROXY)
        (self.web / 'page.tif').write_text('<html>not here</html>')
        (self.web / 'list.tif').write_text('<VRTDataset rasterXSize="1" rasterYSize="1"/>')
        with Files(self.web) as web:
            for name in ('page.tif', 'list.tif'):
                self.depth_at(f'{web.address}/{name}', ALLOW)
                self.refused(3, f'depth: {web.address}/{name}: cannot be read from its server', env=NO_PROXY)
        with Files(self.web, whole=True) as web:
            self.depth_at(web.address + '/sea.tif', ALLOW)
            begun = time.monotonic()
            self.refused(3, f'depth: {web.address}/sea.tif: ', env=NO_PROXY)
            self.assertLess(time.monotonic() - begun, 100)

    def test_a_file_that_changes_meanwhile(self):
        with Files(self.web, grows=True) as web:
            self.depth_at(web.address + '/sea.tif', ALLOW)
            self.refused(3, 'changed while it was read', env=NO_PROXY)


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)
