// SPDX-License-Identifier: Apache-2.0
// Small files, written through GDAL into a folder that goes away.
#pragma once

#include <gdal_priv.h>
#include <ogr_spatialref.h>
#include <ogrsf_frmts.h>

#include <array>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>
#include <vector>

#include "geoio/geoio.hpp"
#include "support/temp_folder.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot::fixtures {

/// A folder for fixtures; GDAL is ready once there is one.
class Folder : public test::TempFolder {
 public:
  Folder() { geoio::start(); }
  [[nodiscard]] FileRef file(const std::string& name, const std::string& variable = "",
                             const std::string& layer = "") const {
    return {path() / name, name, variable, layer};
  }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path() / name, std::ios::binary) << text;
  }
};

inline OGRSpatialReference epsg(int code) {
  OGRSpatialReference reference;
  reference.importFromEPSG(code);
  reference.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  return reference;
}

/// How a raster is to be written.
struct RasterRecipe {
  int cols = 4;
  int rows = 3;
  GDALDataType type = GDT_Float32;
  std::vector<double> values;  ///< of every band, one after the other
  int bands = 1;
  int epsg_code = 32626;  ///< 0: none
  std::array<double, 6> geotransform{500000, 10, 0, 4600000, 0, -10};
  const char* driver = "GTiff";
  std::vector<std::string> options;
  std::function<void(GDALDataset&)> more;  ///< nodata, scale, masks and so on
};

inline void write_raster(const std::string& path, const RasterRecipe& recipe) {
  GDALDriver* const memory = GetGDALDriverManager()->GetDriverByName("MEM");
  GDALDriver* const driver = GetGDALDriverManager()->GetDriverByName(recipe.driver);
  REQUIRE(driver != nullptr);
  CPLStringList options;
  for (const std::string& option : recipe.options) {
    options.AddString(option.c_str());
  }
  const bool direct = driver->GetMetadataItem(GDAL_DCAP_CREATE) != nullptr;
  GDALDatasetUniquePtr dataset((direct ? driver : memory)
                                   ->Create(path.c_str(), recipe.cols, recipe.rows, recipe.bands,
                                            recipe.type, direct ? options.List() : nullptr));
  REQUIRE(dataset != nullptr);
  std::array<double, 6> g = recipe.geotransform;
  dataset->SetGeoTransform(g.data());
  if (recipe.epsg_code != 0) {
    const OGRSpatialReference reference = epsg(recipe.epsg_code);
    dataset->SetSpatialRef(&reference);
  }
  if (recipe.more) {
    recipe.more(*dataset);
  }
  std::vector<double> values = recipe.values;
  values.resize(static_cast<std::size_t>(recipe.cols * recipe.rows * recipe.bands));
  for (int band = 0; band < recipe.bands; ++band) {
    REQUIRE(dataset->GetRasterBand(band + 1)->RasterIO(
                GF_Write, 0, 0, recipe.cols, recipe.rows,
                values.data() + band * recipe.cols * recipe.rows, recipe.cols, recipe.rows,
                GDT_Float64, 0, 0, nullptr) == CE_None);
  }
  if (!direct) {
    GDALDatasetUniquePtr copy(
        driver->CreateCopy(path.c_str(), dataset.get(), FALSE, options.List(), nullptr, nullptr));
    REQUIRE(copy != nullptr);
  }
}

/// All values of a band of an opened raster.
inline std::vector<float> all_values(RasterSource& source, int band = 0) {
  std::vector<float> values(static_cast<std::size_t>(source.info().cols) *
                            static_cast<std::size_t>(source.info().rows));
  source.read(band, {0, 0, source.info().cols, source.info().rows}, values);
  return values;
}

inline std::string mask_of(const std::vector<float>& values) {
  std::string mask;
  for (const float v : values) {
    mask += v != v ? '.' : '#';
  }
  return mask;
}

/// What opening (and reading) says when it fails; the fault must be the input's.
inline std::string failure(const std::function<void()>& action, Fault fault = Fault::input) {
  try {
    action();
  } catch (const Error& e) {
    CHECK(e.fault() == fault);
    CHECK(std::string(e.what()).find('\n') == std::string::npos);
    return e.what();
  }
  return "no failure";
}

/// A variable of a NetCDF file made by hand.
struct NetcdfVariable {
  std::string name;
  std::vector<std::string> dimensions;
  std::vector<double> values;
  std::vector<std::pair<std::string, std::string>> texts;
  std::vector<std::pair<std::string, double>> numbers;
  GDALDataType type = GDT_Float64;
};

inline void write_netcdf(const std::string& path,
                         const std::vector<std::pair<std::string, int>>& dimensions,
                         const std::vector<NetcdfVariable>& variables) {
  GDALDriver* const driver = GetGDALDriverManager()->GetDriverByName("netCDF");
  REQUIRE(driver != nullptr);
  GDALDatasetUniquePtr dataset(driver->CreateMultiDimensional(path.c_str(), nullptr, nullptr));
  REQUIRE(dataset != nullptr);
  const auto root = dataset->GetRootGroup();
  std::vector<std::shared_ptr<GDALDimension>> made;
  for (const auto& [name, size] : dimensions) {
    made.push_back(root->CreateDimension(name, "", "", static_cast<GUInt64>(size)));
  }
  for (const NetcdfVariable& v : variables) {
    std::vector<std::shared_ptr<GDALDimension>> dims;
    std::vector<GUInt64> start;
    std::vector<std::size_t> count;
    for (const std::string& name : v.dimensions) {
      for (const auto& dimension : made) {
        if (dimension->GetName() == name) {
          dims.push_back(dimension);
          start.push_back(0);
          count.push_back(static_cast<std::size_t>(dimension->GetSize()));
        }
      }
    }
    const auto array =
        root->CreateMDArray(v.name, dims, GDALExtendedDataType::Create(v.type), nullptr);
    REQUIRE(array != nullptr);
    for (const auto& [key, text] : v.texts) {
      array->CreateAttribute(key, {}, GDALExtendedDataType::CreateString())->Write(text.c_str());
    }
    for (const auto& [key, number] : v.numbers) {
      array->CreateAttribute(key, {}, GDALExtendedDataType::Create(v.type))->Write(number);
    }
    REQUIRE(array->Write(start.data(), count.data(), nullptr, nullptr,
                         GDALExtendedDataType::Create(GDT_Float64), v.values.data()));
  }
}

}  // namespace tidelot::fixtures
