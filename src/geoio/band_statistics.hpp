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

/// A band as it stands in the file. Its cells are made when they are asked for, since a band may be
/// larger than memory. The band's values outlive it.
class StoredBand {
 public:
  StoredBand(const MapBand& band, double nodata);

  /// Calls use(at) where at(i) is cell i as it stands in the file, in the band's type.
  template <typename Use>
  auto visit(const Use& use) const {
    return std::visit(
        [&](auto values) {
          return use([values, this](std::size_t i) { return stored(values[i], storage_); });
        },
        values_);
  }
  [[nodiscard]] std::size_t size() const {
    return std::visit([](auto values) { return values.size(); }, values_);
  }
  /// The statistics under the names that GDAL's readers look for: STATISTICS_MINIMUM, _MAXIMUM,
  /// _MEAN, _STDDEV (of the population) over the cells that are not nodata, and
  /// STATISTICS_VALID_PERCENT, rounded down to four decimals so that 100 means every cell. A band
  /// without a valid cell has the last one only. ROUNDING where the band is rounded.
  [[nodiscard]] const auto& items() const { return items_; }

 private:
  decltype(MapBand::values) values_;
  Storage storage_;
  std::vector<std::pair<std::string, std::string>> items_;
};

[[nodiscard]] std::vector<StoredBand> stored_bands(const MapFile& map);

}  // namespace tidelot::geoio
