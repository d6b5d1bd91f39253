// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "tidelot/report/map_writer.hpp"

namespace tidelot::geoio {

/// A float rounded to the nearest of so many binary digits, halves to even; what is not finite
/// stays.
[[nodiscard]] float rounded(float value, int digits);

/// How a band's values stand in the file.
struct Storage {
  double nodata;
  int digits = kAllDigits;
};

/// A cell as it stands in the file: not known (NaN) becomes nodata, any other float is rounded.
template <typename T>
[[nodiscard]] T stored(T value, const Storage& storage) {
  if constexpr (std::is_floating_point_v<T>) {
    return value != value ? static_cast<T>(storage.nodata) : rounded(value, storage.digits);
  } else {
    return value;
  }
}

/// A band as it stands in the file, made once for writing and for the check after it. Floats are a
/// copy of the band's (grid.size()), whole numbers are the band's own.
class StoredBand {
 public:
  StoredBand(const MapBand& band, double nodata);
  StoredBand(StoredBand&&) = default;
  StoredBand(const StoredBand&) = delete;
  StoredBand& operator=(const StoredBand&) = delete;

  /// As long as this and the band's own values live.
  [[nodiscard]] const auto& cells() const { return cells_; }
  /// The statistics under the names that GDAL's readers look for: STATISTICS_MINIMUM, _MAXIMUM,
  /// _MEAN, _STDDEV (of the population) over the cells that are not nodata, and
  /// STATISTICS_VALID_PERCENT, rounded down to four decimals so that 100 means every cell. A band
  /// without a valid cell has the last one only. ROUNDING where the band is rounded.
  [[nodiscard]] const auto& items() const { return items_; }

 private:
  std::vector<float> floats_;
  decltype(MapBand::values) cells_;
  std::vector<std::pair<std::string, std::string>> items_;
};

/// All bands of a map: holds as many bytes as the file has unpacked where they are floats.
[[nodiscard]] std::vector<StoredBand> stored_bands(const MapFile& map);

}  // namespace tidelot::geoio
