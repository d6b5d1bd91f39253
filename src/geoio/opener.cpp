// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/opener.hpp"

#include <fmt/format.h>

#include <cmath>
#include <memory>

#include "gdal_support.hpp"
#include "geoio.hpp"
#include "input_file.hpp"
#include "projector.hpp"
#include "raster_file.hpp"
#include "scatter_file.hpp"
#include "series_file.hpp"
#include "vector_file.hpp"

namespace tidelot::geoio {
namespace {

[[noreturn]] void refuse_crs(const std::string& name, const char* why) {
  throw Error(
      Fault::plan,
      fmt::format("area.crs: {} {}; use \"auto\" or a projected system in metres", name, why));
}

/// Distances in spherical Mercator are too long by 1/cos(latitude): areas at 41 N by 1.8.
bool is_web_mercator(const OGRSpatialReference& reference) {
  const char* method = reference.GetAttrValue("PROJECTION");
  const std::string name = method != nullptr ? method : "";
  const char* code = reference.GetAuthorityCode(nullptr);
  return (code != nullptr && std::string(code) == "3857") ||
         name.find("Popular Visualisation") != std::string::npos ||
         reference.GetExtension("PROJCS", "PROJ4") != nullptr;
}

/// The registry's own entry where a system spelled out is the same as one of it.
OGRSpatialReference registered(const OGRSpatialReference& reference) {
  constexpr int kOtherNameOnly =
      70;  // percent: what PROJ gives for the same system, named otherwise
  if (reference.GetAuthorityCode(nullptr) != nullptr) {
    return reference;
  }
  const std::unique_ptr<OGRSpatialReference> match(
      reference.FindBestMatch(kOtherNameOnly, "EPSG", nullptr));
  const char* const options[] = {"CRITERION=EQUIVALENT", nullptr};
  return match != nullptr && match->IsSame(&reference, options) != 0 ? with_traditional_axes(*match)
                                                                     : reference;
}

bool is_east_and_north(const OGRSpatialReference& reference) {
  OGRAxisOrientation first = OAO_Other;
  OGRAxisOrientation second = OAO_Other;
  reference.GetAxis(nullptr, 0, &first);
  reference.GetAxis(nullptr, 1, &second);
  return first != OAO_West && second != OAO_West;
}

class FileOpener final : public Opener, public SeriesReader {
 public:
  using Opener::read_features;

  explicit FileOpener(bool allow_ballpark) : allow_ballpark_(allow_ballpark) {}

  std::unique_ptr<RasterSource> open_raster(const FileRef& file, const std::string& key) override {
    return open_raster_file(file, key);
  }

  FeatureLayer read_features(const FileRef& file, const std::string& where, const std::string& key,
                             const std::string& crs, const LonLatBox& box,
                             const FeatureColumns& columns) override {
    return read_feature_file(file, where, key, crs, box, columns, allow_ballpark_);
  }

  std::optional<Scatter> read_scatter(const FileRef& file, const std::string& key,
                                      const std::string& crs, const LonLatBox& box) override {
    return read_scatter_file(file, key, crs, box, allow_ballpark_);
  }

  std::vector<std::array<std::uint32_t, 3>> triangulate(std::span<const XY> places) override {
    return delaunay(places);
  }

  std::string read_text(const FileRef& file, const std::string& key,
                        std::size_t max_bytes) override {
    return read_text_file(find_input(file, key, false), max_bytes);
  }

  TimeSeries read_series(const FileRef& file, const std::string& key,
                         std::span<const std::string_view> standard_names) override {
    return read_series_file(file, key, standard_names);
  }

  std::unique_ptr<Projector> projector(const std::string& from, const std::string& to,
                                       const std::string& key, const LonLatBox& area) override {
    return make_projector(from, to, key, area, allow_ballpark_);
  }

  std::string metric_crs(const std::string& written) override {
    const OGRSpatialReference reference =
        registered(make_reference(written, "area.crs", Fault::plan));
    const std::string name = reference_name(reference);
    if (reference.IsProjected() == 0) {
      refuse_crs(name, "is not projected, its units are degrees");
    }
    if (reference.GetLinearUnits() != 1.0) {
      refuse_crs(name, "is not in metres");
    }
    if (is_web_mercator(reference)) {
      refuse_crs(name, "stretches with latitude (areas at 41 N come out 1.8 times too large)");
    }
    if (!is_east_and_north(reference)) {
      refuse_crs(name, "counts to the west");
    }
    return reference_text(reference);
  }

  std::string crs_name(const std::string& crs) override {
    return reference_name(make_reference(crs, "area.crs"));
  }

 private:
  bool allow_ballpark_;
};

}  // namespace

std::unique_ptr<Opener> make_opener(bool allow_ballpark) {
  return std::make_unique<FileOpener>(allow_ballpark);
}

}  // namespace tidelot::geoio
