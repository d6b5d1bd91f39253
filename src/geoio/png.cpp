// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <stdexcept>

#include "map_writer_parts.hpp"
#include "output_file.hpp"

namespace tidelot::geoio {
namespace {

constexpr const char* kMemoryName = "picture.png";

/// GDAL sees the caller's pixels where they lie, each channel a band. It only reads them.
bool add_channel(GDALDataset& picture, int width, const std::uint8_t* pixels, int channel,
                 int channels) {
  CPLStringList options;
  char address[64] = {};
  CPLPrintPointer(address, const_cast<std::uint8_t*>(pixels + channel), sizeof address);
  options.SetNameValue("DATAPOINTER", address);
  options.SetNameValue("PIXELOFFSET", fmt::format("{}", channels).c_str());
  options.SetNameValue("LINEOFFSET", fmt::format("{}", std::int64_t{channels} * width).c_str());
  return picture.AddBand(GDT_Byte, options.List()) == CE_None;
}

DatasetHandle picture_of(int width, int height, const std::uint8_t* pixels, int channels) {
  DatasetHandle picture(driver("MEM").Create("", width, height, 0, GDT_Byte, nullptr));
  for (int channel = 0; picture != nullptr && channel < channels; ++channel) {
    if (!add_channel(*picture, width, pixels, channel, channels)) {
      return nullptr;
    }
  }
  return picture;
}

bool encode(GDALDataset& picture, const std::string& to) {
  const DatasetHandle made(
      driver("PNG").CreateCopy(to.c_str(), &picture, TRUE, nullptr, nullptr, nullptr));
  return made != nullptr;
}

}  // namespace

std::string png_bytes(int width, int height, std::span<const std::uint8_t> pixels) {
  const auto each = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
  if (width < 1 || height < 1 || (pixels.size() != each && pixels.size() != 4 * each)) {
    throw std::invalid_argument("a picture has 1 or 4 * width * height bytes, at least one pixel");
  }
  const int channels = pixels.size() == each ? 1 : 4;  // grey; red, green, blue, alpha
  const MemoryFolder folder;
  const Failures failures;
  const DatasetHandle picture = picture_of(width, height, pixels.data(), channels);
  const bool good = picture != nullptr && encode(*picture, folder.path(kMemoryName));
  const auto bytes = folder.bytes(kMemoryName);
  if (!good || failures.any() || bytes.empty()) {
    throw Error(Fault::output,
                fmt::format("a picture of the report could not be made ({}); give the "
                            "run more memory, then run again",
                            failures.text()));
  }
  return {bytes.begin(), bytes.end()};
}

}  // namespace tidelot::geoio
