// SPDX-License-Identifier: Apache-2.0
#include "tidelot/report/map_writer.hpp"

#include "geoio/geoio.hpp"
#include "map_writer_parts.hpp"

namespace tidelot::geoio {
namespace {

/// Holds nothing, so several threads may write different paths at once.
class GdalMapWriter final : public MapWriter {
 public:
  void write_map(const std::filesystem::path& path, const Grid& grid, const MapFile& map) override {
    write_cog(path, grid, map);
  }
  void write_geopackage(const std::filesystem::path& path, std::span<const Site> sites,
                        const Plan& plan) override {
    write_sites_geopackage(path, sites, plan);
  }
  std::string png(int width, int height, std::span<const std::uint8_t> pixels) override {
    return png_bytes(width, height, pixels);
  }
};

}  // namespace

std::unique_ptr<MapWriter> make_map_writer() { return std::make_unique<GdalMapWriter>(); }

}  // namespace tidelot::geoio
