// SPDX-License-Identifier: Apache-2.0
#include <stdlib.h>

#include <catch2/catch.hpp>
#include <cmath>

#include "fixtures.hpp"

using namespace tidelot;
using namespace tidelot::fixtures;
using Catch::Contains;

namespace {

std::unique_ptr<RasterSource> open(const FileRef& file) {
  return geoio::make_opener()->open_raster(file, "water.temperature");
}

std::string refusal(const FileRef& file) {
  return failure([&] { (void)open(file); });
}

NetcdfVariable axis(const std::string& name, double first, double step, int count,
                    const std::string& units) {
  NetcdfVariable v{name, {name}, {}, {{"units", units}}, {}, GDT_Float64};
  for (int i = 0; i < count; ++i) {
    v.values.push_back(first + step * i);
  }
  return v;
}

/// 12 months over 9 x 18 cells of 20 degrees, rows from the south, longitudes 21 to 361; the value
/// is the month number, 99 in the north-east corner.
std::vector<double> climatology() {
  std::vector<double> values;
  for (int month = 0; month < 12; ++month) {
    for (int cell = 0; cell < 9 * 18; ++cell) {
      values.push_back(cell == 9 * 18 - 1 ? 99.0 : month + 1.0);
    }
    values[static_cast<std::size_t>(month * 9 * 18)] = -1e34;      // south-west: missing_value
    values[static_cast<std::size_t>(month * 9 * 18) + 1] = -1e10;  // its neighbour: _FillValue
  }
  return values;
}

NetcdfVariable monthly(const std::string& name) {
  return {name,
          {"TIME", "Y", "X"},
          climatology(),
          {{"units", "DEG C"}},
          {{"missing_value", -1e34}, {"_FillValue", -1e10}},
          GDT_Float32};
}

const std::vector<std::pair<std::string, int>> kDimensions{{"TIME", 12}, {"Y", 9}, {"X", 18}};

std::vector<NetcdfVariable> climatology_file() {
  return {axis("TIME", 366, 730.485, 12, "hour since 0000-01-01 00:00:00"),
          axis("Y", -80, 20, 9, "degrees_north"), axis("X", 21, 20, 18, "degrees_east"),
          monthly("SST")};
}

}  // namespace

TEST_CASE("a climatology: months by the axis, rows turned, both fill values, assumed system said") {
  const Folder folder;
  write_netcdf(folder / "a.nc", kDimensions, climatology_file());
  const auto source = open(folder.file("a.nc"));
  const RasterInfo& info = source->info();
  CHECK(info.format == "netCDF");
  CHECK(info.bands == 12);
  CHECK(info.unit == "DEG C");
  CHECK(info.geographic);
  CHECK_THAT(info.crs_basis, Contains("WGS 84 assumed"));
  CHECK(info.climatology);  // of a year 0
  REQUIRE(info.steps.size() == 12);
  for (int month = 0; month < 12; ++month) {
    CHECK(info.steps[static_cast<std::size_t>(month)].month == month);
  }
  CHECK(info.geotransform[3] == Approx(90.0));
  CHECK(info.geotransform[5] == Approx(-20.0));
  const auto march = all_values(*source, 2);
  CHECK(march[17] == 99.0F);  // north-east comes last in the file, first here
  CHECK(march[3 * 18 + 4] == 3.0F);
  CHECK(std::isnan(march[8 * 18]));
  CHECK(std::isnan(march[8 * 18 + 1]));
  CHECK(march[8 * 18 + 2] == 3.0F);
}

TEST_CASE("a climatology with rows at the poles is on earth, one with rows beyond them is not") {
  const Folder folder;
  auto variables = climatology_file();
  variables[1] = axis("Y", -90, 22.5, 9, "degrees_north");
  write_netcdf(folder / "poles.nc", kDimensions, variables);
  const auto source = open(folder.file("poles.nc"));
  CHECK_THAT(source->info().crs_basis, Contains("WGS 84 assumed"));
  CHECK(source->info().geotransform[3] == Approx(101.25));
  variables[1] = axis("Y", -100, 25, 9, "degrees_north");
  write_netcdf(folder / "beyond.nc", kDimensions, variables);
  CHECK_THAT(refusal(folder.file("beyond.nc")), Contains("no reference system"));
}

TEST_CASE("the environment cannot turn a file upside down") {
  ::setenv("GDAL_NETCDF_BOTTOMUP", "NO", 1);
  const Folder folder;
  write_netcdf(folder / "a.nc", kDimensions, climatology_file());
  CHECK(all_values(*open(folder.file("a.nc")), 2)[17] == 99.0F);
}

TEST_CASE("south-up and north-up files of the same truth are the same raster") {
  const Folder folder;
  std::vector<double> values;
  std::vector<double> turned(9 * 18);
  for (int i = 0; i < 9 * 18; ++i) {
    values.push_back(i);
    turned[static_cast<std::size_t>((8 - i / 18) * 18 + i % 18)] = i;
  }
  const std::vector<std::pair<std::string, int>> dimensions{{"Y", 9}, {"X", 18}};
  const auto x = axis("X", -40, 0.1, 18, "degrees_east");
  write_netcdf(
      folder / "south.nc", dimensions,
      {axis("Y", 40, 0.1, 9, "degrees_north"), x, {"d", {"Y", "X"}, values, {}, {}, GDT_Float64}});
  write_netcdf(folder / "north.nc", dimensions,
               {axis("Y", 40.8, -0.1, 9, "degrees_north"),
                x,
                {"d", {"Y", "X"}, turned, {}, {}, GDT_Float64}});
  const auto a = open(folder.file("south.nc"));
  const auto b = open(folder.file("north.nc"));
  CHECK(all_values(*a) == all_values(*b));
  for (int i = 0; i < 6; ++i) {
    CHECK(a->info().geotransform[static_cast<std::size_t>(i)] ==
          Approx(b->info().geotransform[static_cast<std::size_t>(i)]).margin(1e-9));
  }
}

TEST_CASE("several variables have to be told apart, and a wrong one lists what there is") {
  const Folder folder;
  auto variables = climatology_file();
  variables.push_back(monthly("AIRT"));
  write_netcdf(folder / "a.nc", kDimensions, variables);
  CHECK_THAT(refusal(folder.file("a.nc")),
             Contains("water.temperature: a.nc") && Contains("variable") && Contains("SST, AIRT"));
  CHECK_THAT(refusal(folder.file("a.nc", "SSH")),
             Contains("no variable \"SSH\"") && Contains("SST"));
  CHECK(all_values(*open(folder.file("a.nc", "AIRT")), 4)[20] == 5.0F);
  write_netcdf(folder / "one.nc", kDimensions, climatology_file());
  CHECK(open(folder.file("one.nc", "SST"))->info().bands == 12);
  CHECK_THAT(refusal(folder.file("one.nc", "temp")), Contains("no variable \"temp\""));
}

namespace {

/// 4 x 5 pixels; a value is a thousand times the step, a hundred times the level, and the cell.
void write_stack(const std::string& path, const NetcdfVariable& first,
                 const NetcdfVariable& second) {
  const auto steps = static_cast<int>(first.values.size());
  const auto levels = static_cast<int>(second.values.size());
  std::vector<double> values;
  for (int i = 0; i < steps * levels * 20; ++i) {
    values.push_back(i / 20 / levels * 1000 + i / 20 % levels * 100 + i % 20);
  }
  write_netcdf(path, {{first.name, steps}, {second.name, levels}, {"Y", 4}, {"X", 5}},
               {first,
                second,
                axis("Y", 40.3, -0.1, 4, "degrees_north"),
                axis("X", -30, 0.1, 5, "degrees_east"),
                {"t", {first.name, second.name, "Y", "X"}, values, {}, {}, GDT_Float64}});
}

NetcdfVariable with(NetcdfVariable variable, const std::string& name, const std::string& text) {
  variable.texts.push_back({name, text});
  return variable;
}

}  // namespace

TEST_CASE("steps of time and levels of depth, whichever comes first") {
  const Folder folder;
  const auto time = axis("time", 15, 30, 3, "days since 2001-01-01");
  const auto depth = with(axis("depth", 0, 10, 2, "m"), "positive", "down");
  write_stack(folder / "a.nc", time, depth);
  const auto a = open(folder.file("a.nc", "t"));
  CHECK(a->info().bands == 6);
  CHECK(a->info().levels_m == std::vector<double>{0, 10});
  REQUIRE(a->info().steps.size() == 3);
  CHECK(a->info().steps[2].month == 2);
  CHECK(all_values(*a, a->info().band(2, 1))[7] == 2107.0F);
  write_stack(folder / "b.nc", depth, time);
  const auto b = open(folder.file("b.nc", "t"));
  CHECK(all_values(*b, b->info().band(2, 1))[7] == 1207.0F);  // step and level changed places
}

TEST_CASE("heights are depths with their sign turned, decibars are said to be metres") {
  const Folder folder;
  const auto time = axis("time", 15, 30, 1, "days since 2001-01-01");
  write_stack(folder / "up.nc", time, with(axis("z", -5, 5, 2, "m"), "positive", "up"));
  CHECK(open(folder.file("up.nc", "t"))->info().levels_m[0] == 5.0);
  write_stack(folder / "p.nc", time, axis("lev", 1, 5, 2, "dbar"));
  CHECK(open(folder.file("p.nc", "t"))->info().levels_m == std::vector<double>{1, 6});
  CHECK_THAT(open(folder.file("p.nc", "t"))->info().levels_basis, Contains("decibars"));
}

TEST_CASE("levels that are not depths are refused with what to do") {
  const Folder folder;
  const auto time = axis("time", 15, 30, 1, "days since 2001-01-01");
  const auto refused = [&](const NetcdfVariable& levels) {
    write_stack(folder / "a.nc", time, levels);
    return refusal(folder.file("a.nc", "t"));
  };
  CHECK_THAT(refused(with(axis("lev", -1, 0.5, 3, "1"), "standard_name", "ocean_sigma_coordinate")),
             Contains("follow the bed"));
  CHECK_THAT(refused(axis("level", 1, 1, 3, "1")), Contains("not in metres"));
  CHECK_THAT(refused(axis("z", 1, 1, 3, "m")), Contains("which way is up"));
  CHECK_THAT(refused(axis("member", 1, 1, 3, "1")), Contains("neither time nor depth"));
}

TEST_CASE("a step lies at the middle of its bounds") {
  const Folder folder;
  auto variables = climatology_file();
  // months stamped at their ends
  variables[0] = with(axis("TIME", 31, 30.4, 12, "days since 2001-01-01"), "bounds", "TIME_bnds");
  NetcdfVariable bounds{"TIME_bnds", {"TIME", "bnds"}, {}, {}, {}, GDT_Float64};
  for (int i = 0; i < 12; ++i) {
    bounds.values.push_back(0.6 + 30.4 * i);
    bounds.values.push_back(31.0 + 30.4 * i);
  }
  variables.push_back(bounds);
  auto dimensions = kDimensions;
  dimensions.push_back({"bnds", 2});
  write_netcdf(folder / "a.nc", dimensions, variables);
  const auto source = open(folder.file("a.nc", "SST"));
  CHECK(source->info().steps[0].month == 0);
  CHECK(source->info().steps[11].month == 11);
  CHECK(source->info().steps[11].year == 2001);
  CHECK_FALSE(source->info().climatology);
}

TEST_CASE("a climatology says its years by its bounds") {
  const Folder folder;
  auto variables = climatology_file();
  variables[0] = with(axis("TIME", 15, 30.4, 12, "days since 1961-01-01"), "climatology", "c");
  NetcdfVariable bounds{"c", {"TIME", "bnds"}, {}, {}, {}, GDT_Float64};
  for (int i = 0; i < 12; ++i) {
    bounds.values.push_back(30.4 * i);
    bounds.values.push_back(30.4 * (i + 1) + 29 * 365.25);
  }
  variables.push_back(bounds);
  auto dimensions = kDimensions;
  dimensions.push_back({"bnds", 2});
  write_netcdf(folder / "a.nc", dimensions, variables);
  const auto source = open(folder.file("a.nc", "SST"));
  CHECK(source->info().climatology);
  CHECK(source->info().years == "1961 to 1990");
}

TEST_CASE("rows or columns along time are refused") {
  const Folder folder;
  write_netcdf(folder / "a.nc", {{"Y", 4}, {"X", 5}, {"time", 3}},
               {axis("time", 15, 30, 3, "days since 2001-01-01"),
                axis("Y", 40, 0.1, 4, "degrees_north"),
                axis("X", -30, 0.1, 5, "degrees_east"),
                {"t", {"Y", "X", "time"}, std::vector<double>(60, 10.0), {}, {}, GDT_Float64}});
  CHECK_THAT(refusal(folder.file("a.nc", "t")), Contains("a.nc"));
}

TEST_CASE("a calendar or a time unit that is not known is refused") {
  const Folder folder;
  auto variables = climatology_file();
  variables[0].texts.push_back({"calendar", "lunar"});
  write_netcdf(folder / "a.nc", kDimensions, variables);
  CHECK_THAT(refusal(folder.file("a.nc")), Contains("a.nc") && Contains("lunar"));
  variables = climatology_file();
  variables[0].texts[0].second = "years since 2001-01-01";
  write_netcdf(folder / "b.nc", kDimensions, variables);
  CHECK_THAT(refusal(folder.file("b.nc")), Contains("years since"));
}

TEST_CASE("the calendar of the axis decides the month") {
  const Folder folder;
  auto variables = climatology_file();
  // day 59 + 365 * 3 of 2001 is 1 March 2004 in noleap years and 29 February in Gregorian ones
  variables[0] = axis("TIME", 0, 1, 12, "days since 2004-02-18");
  variables[0].texts.push_back({"calendar", "noleap"});
  write_netcdf(folder / "noleap.nc", kDimensions, variables);
  variables[0].texts[1].second = "standard";
  write_netcdf(folder / "standard.nc", kDimensions, variables);
  CHECK(open(folder.file("noleap.nc"))->info().steps[11].month == 2);
  CHECK(open(folder.file("standard.nc"))->info().steps[11].month == 1);
  CHECK(open(folder.file("noleap.nc"))->info().times == "2004-02-18 to 2004-03-01");
}

TEST_CASE("packed values and the positive attribute") {
  const Folder folder;
  write_netcdf(folder / "a.nc", {{"Y", 2}, {"X", 2}},
               {axis("Y", 40, 0.1, 2, "degrees_north"),
                axis("X", -30, 0.1, 2, "degrees_east"),
                {"depth",
                 {"Y", "X"},
                 {1234, -999, 0, 100},
                 {{"positive", "down"}, {"units", "m"}},
                 {{"_FillValue", -999}},
                 GDT_Int16}});
  {
    GDALDatasetUniquePtr d(
        GDALDataset::Open((folder / "a.nc").c_str(), GDAL_OF_MULTIDIM_RASTER | GDAL_OF_UPDATE));
    REQUIRE(d != nullptr);
    const auto array = d->GetRootGroup()->OpenMDArray("depth");
    const auto number = GDALExtendedDataType::Create(GDT_Float64);
    REQUIRE(array->CreateAttribute("scale_factor", {}, number)->Write(0.01));
    REQUIRE(array->CreateAttribute("add_offset", {}, number)->Write(5.0));
  }
  const auto source = open(folder.file("a.nc"));
  CHECK(source->info().positive == "down");
  const auto values = all_values(*source);  // row 0 is the northern one
  CHECK(values[2] == 17.34F);
  CHECK(std::isnan(values[3]));
  CHECK(values[0] == 5.0F);
  CHECK(values[1] == 6.0F);
}

TEST_CASE("a curvilinear grid keeps the position of every pixel, rows from the last of the file") {
  const Folder folder;
  const std::vector<double> lon{-30.0, -29.9, -29.8, -30.0, -29.91, -29.8};
  const std::vector<double> lat{40.0, 40.01, 40.0, 40.1, 40.11, 40.1};
  const std::vector<double> north_first{40.1, 40.11, 40.1, 40.0, 40.01, 40.0};
  const auto write = [&](const std::string& name, const std::vector<double>& latitudes) {
    write_netcdf(
        folder / name, {{"j", 2}, {"i", 3}},
        {{"lon", {"j", "i"}, lon, {{"units", "degrees_east"}}, {}, GDT_Float64},
         {"lat", {"j", "i"}, latitudes, {{"units", "degrees_north"}}, {}, GDT_Float64},
         {"sst", {"j", "i"}, {1, 2, 3, 4, 5, 6}, {{"coordinates", "lon lat"}}, {}, GDT_Float64}});
  };
  write("south.nc", lat);
  write("north.nc", north_first);
  for (const char* name : {"south.nc", "north.nc"}) {
    const auto source = open(folder.file(name, "sst"));
    const auto& curves = source->info().curves;
    REQUIRE(curves != nullptr);
    const auto values = all_values(*source);
    const bool south = std::string(name) == "south.nc";
    for (std::size_t i = 0; i < 6; ++i) {  // a value tells where in the file it stands
      const auto at = static_cast<std::size_t>(values[i] - 1.0F);
      CHECK(curves->lon()[i] == lon[at]);
      CHECK(curves->lat()[i] == (south ? lat[at] : north_first[at]));
    }
    CHECK_THAT(source->info().crs_basis, Contains("WGS 84 assumed"));
  }
}

TEST_CASE("a grid without positions is refused") {
  const Folder folder;
  write_netcdf(folder / "bare.nc", {{"j", 2}, {"i", 3}},
               {{"sst", {"j", "i"}, std::vector<double>(6, 10.0), {}, {}, GDT_Float64}});
  CHECK_THAT(refusal(folder.file("bare.nc")), Contains("regular grid"));
}

TEST_CASE("axes in metres without a grid mapping are refused: nobody says where they are") {
  const Folder folder;
  write_netcdf(folder / "a.nc", {{"y", 3}, {"x", 3}},
               {axis("y", 4600000, 10, 3, "m"),
                axis("x", 500000, 10, 3, "m"),
                {"d", {"y", "x"}, std::vector<double>(9, 10.0), {}, {}, GDT_Float64}});
  CHECK_THAT(refusal(folder.file("a.nc")), Contains("a.nc") && Contains("regular grid"));
}
