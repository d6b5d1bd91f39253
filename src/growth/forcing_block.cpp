// SPDX-License-Identifier: Apache-2.0
#include "growth/forcing_block.hpp"

#include <algorithm>
#include <numbers>

#include "growth/numbers.hpp"
#include "tidelot/season/sun.hpp"

namespace tidelot {
namespace {

float narrow(double value) { return static_cast<float>(value); }

std::array<const NodeArray*, kProperties> properties(const KernelForcing& f) {
  return {&f.temperature, &f.salinity,  &f.attenuation, &f.nitrogen,
          &f.current,     &f.radiation, &f.ammonium};
}

/// Day d (0 is 1 January) from the tables of the sun.
KernelDay kernel_day(const KernelForcing& forcing, const LightUnits& units, std::size_t d) {
  const bool given = !forcing.radiation.values.empty();
  std::array<double, 2> noon{};
  std::array<double, 2> length{};
  std::array<double, 2> change{};
  for (std::size_t i = 0; i < 2; ++i) {
    const double hours = forcing.sun_day_length_h[i][d];
    const double radiation = given ? 1.0 : forcing.sun_radiation_mj[i][d];
    noon[i] = noon_flux(par_below_surface(radiation), hours) / units.light;
    length[i] = hours / units.length;
    const std::vector<float>& changes = forcing.sun_day_length_change[i];
    change[i] = changes.empty() ? 0.0 : static_cast<double>(changes[d]);
  }
  const DayPosition& at = day_positions()[d];
  return {static_cast<std::size_t>(at.month),
          static_cast<std::size_t>((at.month + 1) % kMonths),
          at.weight,
          narrow(noon[0]),
          narrow(noon[1] - noon[0]),
          narrow(length[0]),
          narrow(length[1] - length[0]),
          narrow(change[0]),
          narrow(change[1] - change[0])};
}

void copy_row(const float* from, std::size_t count, BlockRow& row) {
  std::copy_n(from, count, row.begin());
  std::fill(row.begin() + static_cast<std::ptrdiff_t>(count), row.end(), from[0]);
}

/// As days_of a block, of all cells.
std::array<int, 2> days_of(const KernelForcing& forcing) {
  std::array<int, 2> days{2 * kDaysPerYear, 0};
  for (std::size_t i = 0; i < forcing.cells; ++i) {
    if (forcing.outplant[i] <= forcing.last_haul[i]) {
      days[0] = std::min(days[0], forcing.outplant[i]);
      days[1] = std::max(days[1], forcing.last_haul[i]);
    }
  }
  return days;
}

}  // namespace

CanopyLight canopy_light(const Husbandry& husbandry, double height_m, double shade_per_weight) {
  constexpr double kLog2E = std::numbers::log2e;
  return {narrow(kLog2E * std::max(0.0, husbandry.line_depth_m - height_m / 2.0)),
          narrow(kLog2E * height_m / 2.0), narrow(kLog2E * height_m * kGaussOuter),
          narrow(shade_per_weight), narrow(husbandry.tide_m / 2.0)};
}

CurveLines curve_lines(const Curve& curve) {
  const auto& points = curve.points();
  CurveLines out{narrow(points.front().y), {}};
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool last = i + 1 == points.size();
    const double width = last ? 0.0 : points[i + 1].x - points[i].x;
    const double slope = width > 0.0 ? (points[i + 1].y - points[i].y) / width : 0.0;
    out.lines.push_back(
        {narrow(points[i].x), narrow(slope), narrow(points[i].y - slope * points[i].x)});
  }
  return out;
}

SeasonForcing season_forcing(const KernelForcing& forcing, const LightUnits& units) {
  SeasonForcing season{};
  const auto all = properties(forcing);
  for (std::size_t p = 0; p < kProperties; ++p) {
    season.steady[p] = all[p]->steady;
    season.one_row[p] = all[p]->steady || all[p]->daily;
    season.daily = season.daily || all[p]->daily;
  }
  season.ammonium_given = !forcing.ammonium.values.empty();
  season.radiation_given = !forcing.radiation.values.empty();
  auto [number, last] = days_of(forcing);
  for (; number <= last; ++number) {
    const auto d = static_cast<std::size_t>((number - 1) % kDaysPerYear);
    season.days[d] = kernel_day(forcing, units, d);
  }
  return season;
}

void set_day(const KernelForcing& forcing, std::size_t begin, std::size_t d, ForcingBlock& block) {
  const std::size_t count = std::min(kBlockCells, forcing.cells - begin);
  const auto all = properties(forcing);
  for (std::size_t p = 0; p < kProperties; ++p) {
    if (all[p]->daily) {
      copy_row(&all[p]->values[d * forcing.cells + begin], count, block.nodes[p][0]);
    }
  }
}

void fill_forcing(const KernelForcing& forcing, std::size_t begin, ForcingBlock& block) {
  const std::size_t count = std::min(kBlockCells, forcing.cells - begin);
  block.cells = count;
  const auto all = properties(forcing);
  for (std::size_t p = 0; p < kProperties; ++p) {
    const std::size_t rows = all[p]->daily ? 0 : all[p]->values.size() / forcing.cells;
    for (std::size_t row = 0; row < rows; ++row) {
      copy_row(&all[p]->values[row * forcing.cells + begin], count, block.nodes[p][row]);
    }
  }
  copy_row(&forcing.latitude_weight[begin], count, block.latitude_weight);
  for (std::size_t i = 0; i < kBlockCells; ++i) {
    const bool real = i < count;
    block.first_day[i] = real ? static_cast<float>(forcing.outplant[begin + i]) : 1.0F;
    block.last_day[i] = real ? static_cast<float>(forcing.last_haul[begin + i]) : 0.0F;
  }
  for (BlockRow& row : block.factor_sum) {
    row.fill(0.0F);
  }
}

std::array<int, 2> days_of(const ForcingBlock& block) {
  std::array<int, 2> days{2 * kDaysPerYear, 0};
  for (std::size_t i = 0; i < kBlockCells; ++i) {
    if (block.first_day[i] <= block.last_day[i]) {
      days[0] = std::min(days[0], static_cast<int>(block.first_day[i]));
      days[1] = std::max(days[1], static_cast<int>(block.last_day[i]));
    }
  }
  return days;
}

KernelResult empty_result(std::size_t cells) {
  KernelResult result;
  result.yield_g_per_m.resize(cells);
  result.nitrogen_g_per_m.resize(cells);
  result.harvests.resize(cells);
  for (auto& factor : result.mean_factor) {
    factor.resize(cells);
  }
  return result;
}

void read_factors(const ForcingBlock& block, std::size_t i, std::size_t cell,
                  KernelResult& result) {
  for (std::size_t j = 0; j < kFactors; ++j) {
    result.mean_factor[j][cell] = block.factor_sum[j][i] / season_days(block, i);
  }
}

}  // namespace tidelot
