// SPDX-License-Identifier: Apache-2.0
#include "band_statistics.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

struct Summary {
  std::size_t cells = 0;
  std::size_t valid = 0;
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
  double mean = 0.0;
  double deviation = 0.0;
};

/// Calls use(value) for every valid cell, in the order of the cells: sums come out the same each
/// time.
template <typename T, typename Use>
void each_valid(std::span<const T> values, const Storage& storage, Use use) {
  const T none = static_cast<T>(storage.nodata);
  for (const T value : values) {
    const T cell = stored(value, storage);
    if (cell != none) {
      use(static_cast<double>(cell));
    }
  }
}

template <typename T>
Summary summary_of(std::span<const T> values, const Storage& storage) {
  Summary result;
  result.cells = values.size();
  double sum = 0.0;
  each_valid(values, storage, [&](double value) {
    ++result.valid;
    sum += value;
    result.low = std::min(result.low, value);
    result.high = std::max(result.high, value);
  });
  const double count = std::max(1.0, static_cast<double>(result.valid));
  result.mean = sum / count;
  double squares = 0.0;
  each_valid(values, storage,
             [&](double value) { squares += (value - result.mean) * (value - result.mean); });
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

std::vector<std::pair<std::string, std::string>> statistics_items(const MapBand& band,
                                                                  double nodata) {
  const Summary summary = std::visit(
      [&](auto values) {
        return summary_of(values, Storage{nodata, band.digits});
      },
      band.values);
  std::vector<std::pair<std::string, std::string>> items{
      {"STATISTICS_VALID_PERCENT", shortest(valid_percent(summary))}};
  if (summary.valid > 0) {
    items.insert(items.end(), {{"STATISTICS_MINIMUM", shortest(summary.low)},
                               {"STATISTICS_MAXIMUM", shortest(summary.high)},
                               {"STATISTICS_MEAN", shortest(summary.mean)},
                               {"STATISTICS_STDDEV", shortest(summary.deviation)}});
  }
  if (band.digits < kAllDigits) {
    items.emplace_back("ROUNDING", fmt::format("{} binary digits: within {:.2g} % of the value",
                                               band.digits, 100.0 * std::exp2(-band.digits)));
  }
  return items;
}

}  // namespace tidelot::geoio
