// SPDX-License-Identifier: Apache-2.0
#include "raster_dataset.hpp"

#include <cpl_string.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <fstream>
#include <string_view>
#include <vector>

#include "elsewhere.hpp"
#include "netcdf_axes.hpp"
#include "remote_file.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

/// Formats that hold their own pixels. VRT and other lists of files are left out: they can make a
/// program read anything.
constexpr const char* kFormats[] = {"GTiff",   "netCDF", "HFA", "AAIGrid", "ENVI", "EHdr",
                                    "SRTMHGT", "XYZ",    "BAG", "GPKG",    nullptr};

/// The one that is made to be read by ranges.
constexpr const char* kRemoteFormats[] = {"GTiff", nullptr};

DatasetHandle open_named(const std::string& name, const char* const* options,
                         const char* const* formats = kFormats) {
  return DatasetHandle(GDALDataset::Open(name.c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, formats,
                                         options, nullptr));
}

DatasetHandle open_whole(const InputFile& input) {
  const Reaching reaching(input);
  return open_named(input.path, nullptr, input.file.remote ? kRemoteFormats : kFormats);
}

/// Names of the parts of a file: NETCDF:"path":NAME, GPKG:path:NAME.
std::vector<std::string> parts_of(GDALDataset& dataset) {
  std::vector<std::string> names;
  char** const items = dataset.GetMetadata("SUBDATASETS");
  for (char** item = items; item != nullptr && *item != nullptr; ++item) {
    const std::string text(*item);
    if (text.find("_NAME=") != std::string::npos) {
      names.push_back(text.substr(text.rfind(':') + 1));
    }
  }
  return names;
}

[[noreturn]] void refuse_part(const InputFile& input, const char* key, const std::string& wanted,
                              const std::vector<std::string>& names) {
  const std::string list = foreign_text(fmt::format("{}", fmt::join(names, ", ")));
  if (wanted.empty()) {
    throw input.error(
        fmt::format("holds {} of them; set {} to one of {}", names.size(), key, list));
  }
  const std::string near = nearest_word(wanted, names);
  throw input.error(fmt::format("has no {} \"{}\"{}; it has {}", key, foreign_text(wanted),
                                near.empty() ? "" : fmt::format(" (\"{}\"?)", foreign_text(near)),
                                list));
}

DatasetHandle open_netcdf_part(const InputFile& input, DatasetHandle whole) {
  const std::string& wanted = input.file.variable;
  std::vector<std::string> names = parts_of(*whole);
  if (names.empty()) {
    const std::string only = variable_of(*whole);
    if (!wanted.empty() && wanted != only) {
      refuse_part(input, "variable", wanted, {only});
    }
    return whole;
  }
  if (std::find(names.begin(), names.end(), wanted) == names.end()) {
    refuse_part(input, "variable", wanted, names);
  }
  whole.reset();
  return open_named(fmt::format("NETCDF:\"{}\":{}", input.path, wanted), nullptr);
}

DatasetHandle open_geopackage_part(const InputFile& input, DatasetHandle whole) {
  const std::vector<std::string> names = parts_of(*whole);
  if (names.empty()) {
    return whole;
  }
  if (std::find(names.begin(), names.end(), input.file.layer) == names.end()) {
    refuse_part(input, "layer", input.file.layer, names);
  }
  CPLStringList options;
  options.SetNameValue("TABLE", input.file.layer.c_str());
  whole.reset();
  return open_named(input.path, options.List());
}

DatasetHandle open_part(const InputFile& input, DatasetHandle whole) {
  const std::string format = whole->GetDriverName();
  if (format == "netCDF") {
    return open_netcdf_part(input, std::move(whole));
  }
  if (!input.file.variable.empty()) {
    throw input.error(fmt::format("is a {} file and has no variables; leave variable out", format));
  }
  return format == "GPKG" ? open_geopackage_part(input, std::move(whole)) : std::move(whole);
}

/// Are there lines for at least half of the pixels? Soundings with few digits lie on a lattice,
/// too.
bool fills_lattice(const InputFile& input, GDALDataset& dataset) {
  std::ifstream text(input.path);
  double lines = 0.0;
  for (std::string line; std::getline(text, line);) {
    lines += 1.0;
  }
  return lines >= 0.5 * dataset.GetRasterXSize() * dataset.GetRasterYSize();
}

}  // namespace

std::string variable_of(GDALDataset& dataset) {
  return dataset.GetRasterCount() > 0 ? metadata(*dataset.GetRasterBand(1), "NETCDF_VARNAME") : "";
}

DatasetHandle open_raster_dataset(const InputFile& input) {
  const Failures failures;
  DatasetHandle dataset = open_whole(input);
  if (dataset == nullptr && input.file.remote) {
    throw input.error(
        fmt::format("cannot be read from its server as a GeoTIFF ({}); fetch it and "
                    "name the copy",
                    failures.any() ? failures.text() : "no answer, or another format"));
  }
  if (dataset != nullptr) {
    dataset = open_part(input, std::move(dataset));
  }
  if (dataset == nullptr) {
    throw input.error(
        fmt::format("cannot be read as a raster ({}); give GeoTIFF, NetCDF, BAG, "
                    "Erdas Imagine, an ASCII grid or XYZ",
                    failures.any() ? failures.text() : "format not known or allowed"));
  }
  refuse_elsewhere(input, *dataset);
  return dataset;
}

bool opens_as_raster(const InputFile& input) {
  const Failures failures;
  const DatasetHandle dataset = open_named(input.path, nullptr);
  if (dataset == nullptr) {
    return false;
  }
  const bool text = std::string_view(dataset->GetDriverName()) == "XYZ";
  return !text || (input.file.field.empty() && fills_lattice(input, *dataset));
}

}  // namespace tidelot::geoio
