// SPDX-License-Identifier: Apache-2.0
// Makes the files of this folder in the working folder: gcc make-seeds.c -I/usr/include/hdf5/serial
// -L/usr/lib/x86_64-linux-gnu/hdf5/serial -lhdf5_hl -lhdf5
#include <hdf5.h>
#include <hdf5_hl.h>
#include <stdio.h>
enum { N = 6 };
static hid_t begin(const char* name) {
  double lat[N], lon[N];
  const hsize_t n = N;
  for (int i = 0; i < N; i++) { lat[i] = 40.98 + 0.01 * i; lon[i] = -30.04 + 0.012 * i; }
  hid_t plist = H5Pcreate(H5P_FILE_CREATE);
  H5Pset_link_creation_order(plist, H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED);
  hid_t f = H5Fcreate(name, H5F_ACC_TRUNC, plist, H5P_DEFAULT);
  H5LTmake_dataset_double(f, "lat", 1, &n, lat);
  H5LTmake_dataset_double(f, "lon", 1, &n, lon);
  H5LTset_attribute_string(f, "lat", "units", "degrees_north");
  H5LTset_attribute_string(f, "lon", "units", "degrees_east");
  return f;
}
static void end(hid_t f, hid_t d) {
  hid_t lat = H5Dopen2(f, "lat", H5P_DEFAULT), lon = H5Dopen2(f, "lon", H5P_DEFAULT);
  H5DSset_scale(lat, "lat"); H5DSset_scale(lon, "lon");
  if (d >= 0) { H5DSattach_scale(d, lat, 0); H5DSattach_scale(d, lon, 1); H5Dclose(d); }
  H5Dclose(lat); H5Dclose(lon); H5Fclose(f);
}
int main(void) {
  const hsize_t size[2] = {N, N};
  unsigned char v[N * N];
  for (int i = 0; i < N * N; i++) v[i] = 15;
  hid_t space = H5Screate_simple(2, size, NULL), p, f;
  FILE* bin = fopen("stored.bin", "wb"); fwrite(v, 1, sizeof v, bin); fclose(bin);
  f = begin("stored.nc"); p = H5Pcreate(H5P_DATASET_CREATE); H5Pset_external(p, "stored.bin", 0, N * N);
  end(f, H5Dcreate2(f, "d", H5T_STD_U8LE, space, H5P_DEFAULT, p, H5P_DEFAULT));
  f = begin("other.nc");
  hid_t d = H5Dcreate2(f, "d", H5T_STD_U8LE, space, H5P_DEFAULT, H5P_DEFAULT, H5P_DEFAULT);
  H5Dwrite(d, H5T_NATIVE_UCHAR, H5S_ALL, H5S_ALL, H5P_DEFAULT, v); end(f, d);
  f = begin("linked.nc"); H5Lcreate_external("other.nc", "/d", f, "d", H5P_DEFAULT, H5P_DEFAULT); end(f, -1);
  f = begin("virtual.nc"); p = H5Pcreate(H5P_DATASET_CREATE); H5Pset_virtual(p, space, "other.nc", "/d", space);
  end(f, H5Dcreate2(f, "d", H5T_STD_U8LE, space, H5P_DEFAULT, p, H5P_DEFAULT));
  return 0;
}
