// SPDX-License-Identifier: Apache-2.0
#include "vector_layer.hpp"

#include <cpl_string.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <vector>

#include "elsewhere.hpp"
#include "geojson_reference.hpp"
#include "raster_dataset.hpp"
#include "stated_reference.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

constexpr const char* kFormats[] = {"GPKG", "GeoJSON",     "ESRI Shapefile", "KML", "LIBKML",
                                    "GPX",  "OpenFileGDB", "FlatGeobuf",     "S57", nullptr};

/// Changes that another program has not finished writing would be read half.
void refuse_unfinished(const InputFile& input) {
  for (const char* suffix : {"-journal", "-wal"}) {
    std::error_code code;
    const auto size = std::filesystem::file_size(input.path + suffix, code);
    if (!code && size > 0) {
      throw input.error(
          fmt::format("has changes beside it that are not finished ({}); close it in "
                      "the program that writes it",
                      suffix));
    }
  }
}

/// Nothing where no format that is allowed knows the file.
DatasetHandle try_dataset(const InputFile& input) {
  CPLStringList options;
  if (CPLString(input.path).ifind(".000") !=
      std::string::npos) {  // a chart: every sounding a point
    options.SetNameValue("SPLIT_MULTIPOINT", "ON");
    options.SetNameValue("ADD_SOUNDG_DEPTH", "ON");
    options.SetNameValue("LIST_AS_STRING", "ON");
  }
  return DatasetHandle(GDALDataset::Open(input.path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY,
                                         kFormats, options.List(), nullptr));
}

DatasetHandle open_dataset(const InputFile& input) {
  const Failures failures;
  DatasetHandle dataset = try_dataset(input);
  if (dataset == nullptr) {
    throw input.error(
        fmt::format("cannot be read as shapes ({}); give GeoPackage, GeoJSON, "
                    "Shapefile, KML, GPX, FlatGeobuf, a file geodatabase or S-57",
                    failures.any() ? failures.text() : "format not known or allowed"));
  }
  if (const std::string address = refused_fetch(); !address.empty()) {
    throw input.error(fmt::format(
        "names its reference system by an address ({}), which is not asked; write it into the "
        "file, or take the name out where it is WGS 84",
        one_line(address)));
  }
  refuse_elsewhere(input, *dataset);
  refuse_unread_reference(input, *dataset);
  return dataset;
}

std::vector<std::string> layer_names(GDALDataset& dataset, bool filled_only) {
  std::vector<std::string> names;
  for (OGRLayer* layer : dataset.GetLayers()) {
    if (!filled_only || layer->GetFeatureCount(TRUE) != 0) {
      names.emplace_back(layer->GetName());
    }
  }
  return names;
}

/// GPX files always have five layers and KML ones may have empty folders: only filled ones count.
std::string choose(const InputFile& input, GDALDataset& dataset) {
  const auto all = layer_names(dataset, false);
  if (all.size() == 1) {
    return all[0];
  }
  const auto filled = layer_names(dataset, true);
  if (filled.size() == 1) {
    return filled[0];
  }
  throw input.error(all.empty()
                        ? std::string("holds no layer of shapes")
                        : fmt::format("holds {} layers; set layer to one of {}", all.size(),
                                      foreign_text(fmt::format("{}", fmt::join(all, ", ")))));
}

OGRLayer* layer_named(const InputFile& input, GDALDataset& dataset) {
  const std::string& wanted = input.file.layer;
  const auto names = layer_names(dataset, false);
  if (!wanted.empty() && std::find(names.begin(), names.end(), wanted) == names.end()) {
    const std::string near = nearest_word(wanted, names);
    throw input.error(fmt::format("has no layer \"{}\"{}; it has {}", foreign_text(wanted),
                                  near.empty() ? "" : fmt::format(" (\"{}\"?)", foreign_text(near)),
                                  foreign_text(fmt::format("{}", fmt::join(names, ", ")))));
  }
  return dataset.GetLayerByName((wanted.empty() ? choose(input, dataset) : wanted).c_str());
}

}  // namespace

VectorLayer open_vector_layer(const InputFile& input) {
  refuse_unfinished(input);
  VectorLayer opened;
  opened.dataset = open_dataset(input);
  opened.layer = layer_named(input, *opened.dataset);
  const auto stated = stated_reference(input, opened.layer->GetSpatialRef());
  if (!stated) {
    throw input.error(
        fmt::format("has no reference system; if you know it, set it with ogr2ogr "
                    "-a_srs EPSG:n new.gpkg {}{}",
                    foreign_text(input.file.written), crs_key_hint(input.key)));
  }
  opened.reference = stated->reference;
  opened.crs_basis = stated->basis;
  return opened;
}

bool opens_as_shapes(const InputFile& input) {
  const Failures failures;
  const DatasetHandle dataset = try_dataset(input);
  if (dataset == nullptr || dataset->GetLayerCount() == 0) {
    return false;
  }
  const auto names = layer_names(*dataset, false);
  const bool named = std::find(names.begin(), names.end(), input.file.layer) != names.end();
  return named || !opens_as_raster(input);
}

}  // namespace tidelot::geoio
