// SPDX-License-Identifier: Apache-2.0
// The check that follows every write must see each difference: a check that cannot fail is none.
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "geoio/geoio.hpp"
#include "geoio/map_writer_parts.hpp"
#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"

using tidelot::Error;
using tidelot::Grid;
using tidelot::MapBand;
using tidelot::MapFile;
using tidelot::geoio::check_cog;
using tidelot::test::TempFolder;

namespace {

/// A written map, and what was asked for.
struct Written {
  TempFolder folder;
  Grid grid{250000, 4540000, 10, 600, 40, "EPSG:32626"};
  std::vector<float> values = std::vector<float>(grid.size(), 0.5F);
  MapFile map;

  Written() {
    values[0] = 0.25F;
    values[1] = 0.75F;
    map.bands = {MapBand{"best estimate", "kg/m", std::span<const float>(values)}};
    map.categories = {"outside"};
    map.metadata = {{"TITLE", "Heron Bight"}};
    tidelot::geoio::start();
    tidelot::geoio::write_cog(path(), grid, map);
  }
  [[nodiscard]] std::filesystem::path path() const { return folder / "a.tif"; }
};

/// What the check says once something that was asked for has changed.
std::string verdict(const std::function<void(Written&)>& change) {
  Written written;
  change(written);
  try {
    check_cog(written.path(), written.grid, written.map, tidelot::geoio::stored_bands(written.map));
  } catch (const Error& error) {
    CHECK(error.fault() == tidelot::Fault::output);
    CHECK(std::string(error.what()).find("a.tif") != std::string::npos);
    return error.what();
  }
  return "good";
}

bool contains(const std::string& line, const std::string& words) {
  CAPTURE(line);
  return line.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("the check passes what was written") {
  CHECK(verdict([](Written&) {}) == "good");
}

TEST_CASE("the check sees two cells that changed places, which no statistic tells") {
  CHECK(contains(verdict([](Written& w) { std::swap(w.values[0], w.values[1]); }),
                 "cells of band 1"));
}

TEST_CASE("the check sees one cell of another value, another sign, and a hole") {
  CHECK(contains(verdict([](Written& w) { w.values.back() = 0.50000006F; }), "band 1"));
  CHECK(contains(verdict([](Written& w) { w.values[0] = -0.25F; }), "band 1"));
  CHECK(contains(verdict([](Written& w) { w.values[7] = NAN; }), "band 1"));
}

TEST_CASE("the check sees another place, size or reference system") {
  CHECK(contains(verdict([](Written& w) { w.grid.west += 1e-6; }), "position"));
  CHECK(contains(verdict([](Written& w) { w.grid.cell_m = 10.5; }), "position"));
  CHECK(contains(verdict([](Written& w) { w.grid.crs = "EPSG:32625"; }), "reference system"));
  CHECK(contains(verdict([](Written& w) { std::swap(w.grid.cols, w.grid.rows); }), "size"));
  CHECK(contains(verdict([](Written& w) { w.map.bands.push_back(w.map.bands[0]); }), "size"));
}

TEST_CASE("the check sees another nodata value, unit, description, category or title") {
  CHECK(contains(verdict([](Written& w) { w.map.nodata = -9998; }), "band 1"));
  CHECK(contains(verdict([](Written& w) { w.map.bands[0].unit = "t"; }), "description of band 1"));
  CHECK(contains(verdict([](Written& w) { w.map.bands[0].description = "other"; }),
                 "description of band 1"));
  CHECK(
      contains(verdict([](Written& w) { w.map.categories = {"land"}; }), "description of band 1"));
  CHECK(contains(verdict([](Written& w) { w.map.metadata[0].second = "other"; }), "metadata"));
}

TEST_CASE("the check sees a file that was cut, spoilt or lost") {
  CHECK(verdict([](Written& w) {
          std::filesystem::resize_file(w.path(), std::filesystem::file_size(w.path()) - 40);
        }) != "good");
  CHECK(verdict([](Written& w) { std::ofstream(w.path(), std::ios::trunc) << "no map"; }) !=
        "good");
  CHECK(contains(verdict([](Written& w) { std::filesystem::remove(w.path()); }),
                 "cannot be opened again"));
}
