# SPDX-License-Identifier: Apache-2.0
"""Files that would show what lies elsewhere, or have the network asked: whatever they are called,
they are refused (or what they ask for is not done), and nothing of the other file is read."""
import json
import shutil
import sqlite3
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
from guarded import Guarded, Listener  # noqa: E402
from little_bay import square  # noqa: E402

SEEDS = Path(__file__).resolve().parent / 'seeds'
POLYGON = {'type': 'Polygon', 'coordinates': [square(-30.008, 41.001)]}
KML = '''<?xml version="1.0"?>{}<kml xmlns="http://www.opengis.net/kml/2.2"><Document>{}<Placemark><name>{}</name>
<styleUrl>{}#s</styleUrl><Polygon><outerBoundaryIs><LinearRing><coordinates>-30.01,41.001 -30.0,41.001
-30.0,41.01 -30.01,41.001</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark></Document></kml>'''


def vrt(source):
    return f'''<VRTDataset rasterXSize="30" rasterYSize="25"><SRS>EPSG:4326</SRS>
<GeoTransform>-30.025,0.001,0,41.02,0,-0.001</GeoTransform><VRTRasterBand dataType="Float32" band="1">
<SimpleSource><SourceFilename>{source}</SourceFilename></SimpleSource></VRTRasterBand></VRTDataset>'''


class Elsewhere(Guarded):
    def write(self, name, text):
        (self.bay / name).write_text(text)

    def geojson(self, crs):
        self.write('outfall.geojson', json.dumps({
            'type': 'FeatureCollection', 'crs': crs,
            'features': [{'type': 'Feature', 'properties': {}, 'geometry': POLYGON}]}))

    def test_lists_of_other_files_are_no_layers(self):
        shutil.copy(self.bay / 'depth.tif', self.bay / 'real.tif')
        with Listener() as web:
            for name, key, text in (
                    ('depth.tif', 'depth: depth.tif', vrt('real.tif')),
                    ('depth.tif', 'depth: depth.tif', vrt('/etc/hostname')),
                    ('depth.tif', 'depth: depth.tif', vrt(f'/vsicurl/{web.address}/a.tif')),
                    ('depth.tif', 'depth: depth.tif',
                     f'<GDAL_WMS><Service name="WMS"><ServerUrl>{web.address}</ServerUrl></Service></GDAL_WMS>'),
                    ('depth.tif', 'depth: depth.tif',
                     f'<WCS_GDAL><ServiceURL>{web.address}</ServiceURL><CoverageName>a</CoverageName></WCS_GDAL>'),
                    ('depth.tif', 'depth: depth.tif', '{"type": "tileindex", "url": "%s"}' % web.address),
                    ('outfall.geojson', 'closed "outfall": outfall.geojson',
                     '<OGRVRTDataSource><OGRVRTLayer name="x"><SrcDataSource>closed.gpkg</SrcDataSource>'
                     '</OGRVRTLayer></OGRVRTDataSource>'),
                    ('outfall.geojson', 'closed "outfall": outfall.geojson',
                     f'<OGRWFSDataSource><URL>{web.address}</URL></OGRWFSDataSource>')):
                with self.subTest(text):
                    kept = (self.bay / name).read_bytes()
                    self.write(name, text)
                    self.plan()
                    self.refused(3, key, 'cannot be read as')
                    (self.bay / name).write_bytes(kept)
            self.assertEqual(web.asked, [])

    def test_a_reference_system_by_an_address_is_not_fetched(self):
        with Listener() as web:
            for kind in ('link', 'url'):
                self.geojson({'type': kind, 'properties': {'href': web.address + '/crs',
                                                           'url': web.address + '/crs'}})
                self.plan()
                self.refused(3, 'closed "outfall": outfall.geojson', web.address, 'is not asked')
            self.geojson({'type': 'name', 'properties': {'name': web.address + '/crs'}})
            self.tidelot('check')
            self.write('area.prj', web.address + '/crs')
            self.tidelot('check')
            self.assertEqual(web.asked, [])

    def test_xml_brings_nothing_in(self):
        with Listener() as web:
            for text in (KML.format('', f'<NetworkLink><Link><href>{web.address}</href></Link></NetworkLink>',
                                    'a', web.address),
                         KML.format(f'<!DOCTYPE kml [<!ENTITY x SYSTEM "{web.address}/x"><!ENTITY y SYSTEM '
                                    '"file:///etc/hostname">]>', '', '&x;&y;', '')):
                self.write('outfall.geojson', text)
                self.plan()
                self.tidelot('check')
            self.assertEqual(web.asked, [])

    def test_arrays_that_lie_in_other_files(self):
        """stored.nc shows the bytes of stored.bin, linked.nc an array of other.nc, virtual.nc one
        made of other.nc (seeds/make-seeds.c)."""
        for name in ('stored.nc', 'linked.nc', 'virtual.nc'):
            with self.subTest(name):
                for each in SEEDS.iterdir():
                    shutil.copy(each, self.bay)
                self.plan(('file = "temperature.nc"\nvariable = "sst"',
                           f'file = "{name}"\nvariable = "d"\nunit = "degC"'))
                self.refused(3, f'water.temperature: {name}: its "d" lies in another file', cwd=self.bay)

    def test_the_twin_that_holds_its_own_array_is_read(self):
        shutil.copy(SEEDS / 'other.nc', self.bay)
        self.plan(('file = "temperature.nc"\nvariable = "sst"',
                   'file = "other.nc"\nvariable = "d"\nunit = "degC"'))
        self.scouted()

    def package(self, sql, name='more'):
        with sqlite3.connect(self.bay / 'closed.gpkg') as base:
            base.execute('PRAGMA writable_schema = 1')
            base.execute('INSERT INTO sqlite_master (type, name, tbl_name, rootpage, sql) '
                         "VALUES ('table', ?, ?, 0, ?)", (name, name, sql))
            base.execute("INSERT INTO gpkg_contents (table_name, data_type, identifier, srs_id) "
                         "VALUES (?, 'attributes', ?, 4326)", (name, name))
        base.close()

    def test_tables_that_are_made_out_of_other_files(self):
        other = self.top / 'secret.csv'
        other.write_text('a,b\nsecret,1\n')
        for sql in (f"CREATE VIRTUAL TABLE more USING VirtualText('{other}', 'UTF-8', 1, POINT, DOUBLEQUOTE, ',')",
                    f"create/**/virtual table more using VirtualText('{other}', 'UTF-8', 1, POINT, DOUBLEQUOTE, ',')",
                    f"CREATE VIRTUAL TABLE \"using rtree(\" USING VirtualText('{other}', 'UTF-8', 1, POINT, DOUBLEQUOTE, ',')"):
            with self.subTest(sql):
                shutil.copy(self.made / 'bay' / 'closed.gpkg', self.bay)
                self.package(sql, 'using rtree(' if 'rtree' in sql else 'more')
                self.plan(('file = "closed.gpkg"', 'file = "closed.gpkg"\nlayer = "shapes"'))
                self.refused(3, 'closed "eelgrass": closed.gpkg: its table', 'made out of other files')


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1], verbosity=1)
