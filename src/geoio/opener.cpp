// SPDX-License-Identifier: Apache-2.0
#include "tidelot/layers/opener.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <set>
#include <vector>

#include "elsewhere.hpp"
#include "gdal_support.hpp"
#include "geoio.hpp"
#include "input_file.hpp"
#include "projector.hpp"
#include "raster_file.hpp"
#include "rehearsal.hpp"
#include "scatter_file.hpp"
#include "series_file.hpp"
#include "tidelot/layers/file_wish.hpp"
#include "vector_file.hpp"

namespace tidelot::geoio {
namespace {

constexpr int kStripCells = 1 << 20;  // read at a time

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

/// Every pixel of every band, a strip of rows at a time.
void read_all(RasterSource& source) {
  const RasterInfo& info = source.info();
  const int strip = std::max(1, kStripCells / std::max(1, info.cols));
  std::vector<float> room;
  for (int band = 0; band < info.bands; ++band) {
    for (int row = 0; row < info.rows; row += strip) {
      const Window window{0, row, info.cols, std::min(strip, info.rows - row)};
      room.resize(static_cast<std::size_t>(window.cols) * static_cast<std::size_t>(window.rows));
      source.read(band, window, room);
    }
  }
}

constexpr int kChildren = 2;  ///< of which each may take half the memory

/// A file as the library sees it.
std::string file_name(std::string_view how, const FileRef& file) {
  return fmt::format("{}|{}|{}|{}|{}|{}", how, file.path.string(), file.variable, file.layer,
                     file.field, file.crs);
}

std::string raster_name(const FileRef& file) { return file_name("raster", file); }

std::string scatter_name(const FileRef& file, const std::string& crs, const LonLatBox& box) {
  return fmt::format("{}|{}|{} {} {} {}", file_name("scatter", file), crs, box.west, box.south,
                     box.east, box.north);
}

std::string shapes_name(const FileRef& file, const std::string& where, const std::string& crs,
                        const LonLatBox& box, const FeatureColumns& columns) {
  return fmt::format("{}|{}|{}|{}|{}|{} {} {} {}", file_name("shapes", file), where, crs,
                     columns.setback, columns.status, box.west, box.south, box.east, box.north);
}

class FileOpener final : public Opener, public SeriesReader, public ForeseeingOpener {
 public:
  using Opener::read_features;

  FileOpener(bool allow_ballpark, const std::atomic<int>* stop)
      : allow_ballpark_(allow_ballpark), stop_(stop) {}

  /// Every file is decoded once by one of two children: the largest are begun first.
  void expect(std::span<const FileWish> wishes) override {
    std::vector<Decoding> all;
    for (const FileWish& wish : wishes) {
      add_decoding(wish, all);
    }
    std::stable_sort(all.begin(), all.end(), [](const Decoding& a, const Decoding& b) {
      return a.work.limits.cpu_s > b.work.limits.cpu_s;
    });
    std::vector<Rehearsal> work;
    work.reserve(all.size());
    for (const Decoding& each : all) {
      work.push_back(each.work);
    }
    const int children = std::min(kChildren, static_cast<int>(work.size()));
    const std::vector<std::uint8_t> done = rehearse_together(work, children, stop_);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const std::size_t count = std::min<std::size_t>(done[i], all[i].names.size());
      decoded_.insert(all[i].names.begin(),
                      all[i].names.begin() + static_cast<std::ptrdiff_t>(count));
    }
  }

  std::unique_ptr<RasterSource> open_raster(const FileRef& file, const std::string& key) override {
    if (!file.remote) {  // a child that reads all of it would fetch all of it
      first_in_child(file, key, raster_name(file), [&] { read_all(*open_raster_file(file, key)); });
    }
    return open_raster_file(file, key);
  }

  FeatureLayer read_features(const FileRef& file, const std::string& where, const std::string& key,
                             const std::string& crs, const LonLatBox& box,
                             const FeatureColumns& columns) override {
    const auto read = [&] {
      return read_feature_file(file, where, key, crs, box, columns, allow_ballpark_);
    };
    first_in_child(file, key, shapes_name(file, where, crs, box, columns), read);
    return read();
  }

  std::optional<Scatter> read_scatter(const FileRef& file, const std::string& key,
                                      const std::string& crs, const LonLatBox& box) override {
    if (file.remote) {
      return std::nullopt;
    }
    const auto read = [&] { return read_scatter_file(file, key, crs, box, allow_ballpark_); };
    first_in_child(file, key, scatter_name(file, crs, box), read);
    return read();
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
    const auto read = [&] { return read_series_file(file, key, standard_names); };
    first_in_child(file, key, "", read);
    return read();
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
  /// The decodings that a wish stands for, in their order, by name; its work tells how many of them
  /// were done.
  struct Decoding {
    std::vector<std::string> names;
    Rehearsal work;
  };

  /// A file that is not there is left to who asks for it.
  void add_decoding(const FileWish& wish, std::vector<Decoding>& all) const {
    try {
      const InputFile input = find_input(wish.file, wish.key, true);
      Decoding decoding = decoding_of(wish);
      decoding.work = {limits_for(input), [input, decode = std::move(decoding.work.decode)] {
                         refuse_hdf5_elsewhere(input);
                         return decode();
                       }};
      all.push_back(std::move(decoding));
    } catch (const Error&) {
    }
  }

  /// Whatever its work throws leaves all of it to be decoded anew, alone.
  [[nodiscard]] Decoding decoding_of(const FileWish& wish) const {
    const bool ballpark = allow_ballpark_;
    const auto read_raster = [wish] { read_all(*open_raster_file(wish.file, wish.key)); };
    if (wish.as == FileWish::As::shapes) {
      return {{shapes_name(wish.file, wish.where, wish.crs, wish.box, wish.columns)},
              {{}, [wish, ballpark]() -> std::uint8_t {
                 static_cast<void>(read_feature_file(wish.file, wish.where, wish.key, wish.crs,
                                                     wish.box, wish.columns, ballpark));
                 return 1;
               }}};
    }
    if (wish.as == FileWish::As::depths) {
      return {{scatter_name(wish.file, wish.crs, wish.box), raster_name(wish.file)},
              {{}, [wish, ballpark, read_raster]() -> std::uint8_t {
                 if (read_scatter_file(wish.file, wish.key, wish.crs, wish.box, ballpark)) {
                   return 1;
                 }
                 read_raster();
                 return 2;
               }}};
    }
    return {{raster_name(wish.file)}, {{}, [read_raster]() -> std::uint8_t {
                                         read_raster();
                                         return 1;
                                       }}};
  }

  /// Whatever a library decodes is decoded in a child first, whose death is a refusal. name: what
  /// is decoded how; what was expected is not decoded again.
  template <typename Decode>
  void first_in_child(const FileRef& file, const std::string& key, const std::string& name,
                      const Decode& decode) {
    const InputFile input = find_input(file, key, true);
    if (!decoded_.contains(name)) {
      rehearse(
          input, limits_for(input),
          [&] {
            refuse_hdf5_elsewhere(input);
            static_cast<void>(decode());
          },
          stop_);
    }
    refuse_hdf5_elsewhere(input);
  }

  bool allow_ballpark_;
  const std::atomic<int>* stop_;
  std::set<std::string> decoded_;  ///< by a child that lived
};

}  // namespace

std::unique_ptr<Opener> make_opener(bool allow_ballpark, const std::atomic<int>* stop) {
  return std::make_unique<FileOpener>(allow_ballpark, stop);
}

}  // namespace tidelot::geoio
