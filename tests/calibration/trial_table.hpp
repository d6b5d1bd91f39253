// SPDX-License-Identifier: Apache-2.0
// A crop's published trials beside what its model predicts, as rows of a table.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numeric>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "tidelot/core/text.hpp"
#include "tidelot/plan/crop_profile.hpp"

namespace tidelot::calibration {

inline constexpr std::size_t kDraws = 200;

/// A measured figure and the band accepted around it; what is not given stays empty.
template <class Constants>
struct Trial {
  const char* source;
  const char* quantity;
  const char* unit;
  std::optional<double> measured, low, high;
  std::function<double(const Constants&)> predicted;
};

/// Quantile of a triangular distribution.
inline double triangular(const CropConstant& c, double share) {
  const double width = c.high - c.low;
  return share * width < c.value - c.low
             ? c.low + std::sqrt(share * width * (c.value - c.low))
             : c.high - std::sqrt((1.0 - share) * width * (c.high - c.value));
}

/// One number in each of kDraws equal parts of 0..1, in random order; the constant's name is the
/// seed, so that a profile with one constant more draws the others alike. The standard fixes what
/// engines give but not its distributions, so those are written out.
inline std::vector<double> shares(const std::string& constant) {
  std::seed_seq seed(constant.begin(), constant.end());
  std::mt19937_64 random(seed);
  std::vector<std::size_t> part(kDraws);
  std::iota(part.begin(), part.end(), std::size_t{0});
  for (std::size_t i = kDraws - 1; i > 0; --i) {
    std::swap(part[i], part[random() % (i + 1)]);
  }
  std::vector<double> share;
  for (const std::size_t p : part) {
    const double within = static_cast<double>(random() >> 11U) * 0x1p-53;
    share.push_back((static_cast<double>(p) + within) / static_cast<double>(kDraws));
  }
  return share;
}

/// The profile drawn kDraws times over all constants that have a range.
inline std::vector<Crop> drawn_crops(const Crop& profile) {
  std::vector<Crop> crops(kDraws, profile);
  for (std::size_t i = 0; i < profile.constants.size(); ++i) {
    const CropConstant& constant = profile.constants[i];
    if (constant.high > constant.low) {
      const std::vector<double> share = shares(constant.name);
      for (std::size_t draw = 0; draw < kDraws; ++draw) {
        crops[draw].constants[i].value = triangular(constant, share[draw]);
      }
    }
  }
  return crops;
}

template <class Constants>
std::array<double, 3> spread(const Trial<Constants>& trial, const std::vector<Constants>& draws) {
  std::vector<double> results;
  for (const Constants& constants : draws) {
    results.push_back(trial.predicted(constants));
  }
  std::sort(results.begin(), results.end());
  const auto at = [&](std::size_t tenths) { return results[kDraws * tenths / 10]; };
  return {at(1), at(5), at(9)};
}

inline std::string cell(std::optional<double> value) {
  return value ? fixed(*value, 2) : std::string();
}

inline constexpr const char* kHeader =
    "source,quantity,unit,measured,accept_low,accept_high,predicted,p10,p50,p90,net_fit,"
    "predicted_is\n";

/// net_fit: with other constants, where there are any.
template <class Constants>
std::string row(const Trial<Constants>& trial, const Constants& profile,
                const std::optional<Constants>& net_fit, const std::vector<Constants>& draws) {
  const double predicted = trial.predicted(profile);
  const auto [p10, p50, p90] = spread(trial, draws);
  const bool inside =
      !(trial.low && predicted < *trial.low) && !(trial.high && predicted > *trial.high);
  return fmt::format("{},{},{},{},{},{},{},{},{},{},{},{}\n", trial.source, trial.quantity,
                     trial.unit, cell(trial.measured), cell(trial.low), cell(trial.high),
                     cell(predicted), cell(p10), cell(p50), cell(p90),
                     net_fit ? cell(trial.predicted(*net_fit)) : std::string(),
                     inside ? "inside" : "outside");
}

}  // namespace tidelot::calibration
