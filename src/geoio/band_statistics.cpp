// SPDX-License-Identifier: Apache-2.0
#include "band_statistics.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>

#include "tidelot/core/grid_vector.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

struct Summary {
  std::size_t cells = 0;
  std::size_t valid = 0;
  double low = 0.0;
  double high = 0.0;
  double mean = 0.0;
  double deviation = 0.0;
};

template <typename At, typename Look>
void for_each_cell(std::size_t cells, const At& at, const Look& look) {
  constexpr std::size_t kStretch = std::size_t{1} << 18U;
  for (std::size_t first = 0; first < cells; first += kStretch) {
    const std::size_t end = std::min(cells, first + kStretch);
    for (std::size_t i = first; i < end; ++i) {
      look(at(i));
    }
    walked_over((end - first) * sizeof(at(0)));
  }
}

/// In the order of the cells, so that sums come out the same each time.
template <typename At>
Summary summary_of(std::size_t cells, const At& at, double nodata) {
  using T = decltype(at(0));
  const T none = static_cast<T>(nodata);
  Summary result;
  result.cells = cells;
  double sum = 0.0;
  using Limits = std::numeric_limits<T>;
  T low = Limits::has_infinity ? Limits::infinity() : Limits::max();
  T high = Limits::has_infinity ? -Limits::infinity() : Limits::lowest();
  for_each_cell(cells, at, [&](T cell) {
    const bool valid = cell != none;
    result.valid += valid ? 1 : 0;
    sum += valid ? static_cast<double>(cell) : 0.0;
    low = valid && cell < low ? cell : low;
    high = valid && cell > high ? cell : high;
  });
  const double count = std::max(1.0, static_cast<double>(result.valid));
  result.low = static_cast<double>(low);
  result.high = static_cast<double>(high);
  result.mean = sum / count;
  double squares = 0.0;
  for_each_cell(cells, at, [&](T cell) {
    const double off = static_cast<double>(cell) - result.mean;
    squares += cell != none ? off * off : 0.0;
  });
  result.deviation = std::sqrt(squares / count);
  return result;
}

double valid_percent(const Summary& summary) {
  const double share =
      static_cast<double>(summary.valid) / std::max(1.0, static_cast<double>(summary.cells));
  return std::floor(share * 1e6) / 1e4;
}

}  // namespace

float rounded(float value, int digits) {
  constexpr std::uint32_t kExponent = 0x7F800000U;
  const auto bits = std::bit_cast<std::uint32_t>(value);
  if (digits >= kAllDigits || (bits & kExponent) == kExponent) {
    return value;
  }
  const int dropped = kAllDigits - digits;
  const std::uint32_t mask = (1U << dropped) - 1U;
  const std::uint32_t odd = (bits >> dropped) & 1U;
  return std::bit_cast<float>((bits + (mask >> 1U) + odd) & ~mask);
}

StoredBand::StoredBand(const MapBand& band, double nodata)
    : values_(band.values), storage_{nodata, band.digits} {
  const Summary summary = visit([&](auto at) { return summary_of(size(), at, nodata); });
  items_ = {{"STATISTICS_VALID_PERCENT", shortest(valid_percent(summary))}};
  if (summary.valid > 0) {
    items_.insert(items_.end(), {{"STATISTICS_MINIMUM", shortest(summary.low)},
                                 {"STATISTICS_MAXIMUM", shortest(summary.high)},
                                 {"STATISTICS_MEAN", shortest(summary.mean)},
                                 {"STATISTICS_STDDEV", shortest(summary.deviation)}});
  }
  if (band.digits < kAllDigits) {
    items_.emplace_back("ROUNDING", fmt::format("{} binary digits: within {:.2g} % of the value",
                                                band.digits, 100.0 * std::exp2(-band.digits)));
  }
}

std::vector<StoredBand> stored_bands(const MapFile& map) {
  std::vector<StoredBand> bands;
  for (const MapBand& band : map.bands) {
    bands.emplace_back(band, map.nodata);
  }
  return bands;
}

}  // namespace tidelot::geoio
