// SPDX-License-Identifier: Apache-2.0
#include "layer_cover.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <span>

#include "layer_fields.hpp"
#include "monthly_tile.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr int kTileSide = 128;
/// Attenuation, 1/m: of one per cent of the light three metres down. Judgement.
constexpr double kDarkEverywhere = 1.5;

struct Cover {
  std::size_t cells = 0;
  std::size_t known = 0;
  std::size_t patched = 0;  ///< known from part of the neighbours
  double low = 0.0;
  double high = 0.0;

  void add_value(float value) {
    const double v = value;
    low = known == 0 ? v : std::min(low, v);
    high = known == 0 ? v : std::max(high, v);
  }
};

/// Months or days of one layer on a tile, as spans.
using Months = std::vector<std::span<const float>>;

Months months_in(const MonthlyTile& tile) {
  Months months;
  for (const auto& month : tile.month) {
    if (!month.empty()) {
      months.emplace_back(month);
    }
  }
  for (const auto& day : tile.day) {
    months.emplace_back(day);
  }
  return months;
}

/// A cell counts as known where every month is.
void add_cells(const Months& months, std::span<const float> share,
               const std::vector<std::uint8_t>& counted, Cover& cover) {
  for (std::size_t i = 0; i < counted.size(); ++i) {
    if (counted[i] == 0) {
      continue;
    }
    ++cover.cells;
    const bool known = std::none_of(months.begin(), months.end(),
                                    [i](const auto& month) { return std::isnan(month[i]); });
    if (known) {
      std::for_each(months.begin(), months.end(),
                    [&](const auto& month) { cover.add_value(month[i]); });
      ++cover.known;
      cover.patched += !share.empty() && share[i] < 1.0F ? 1 : 0;
    }
  }
}

class CoverScan {
 public:
  CoverScan(const Plan& plan, LayerSet& layers) : plan_(plan), layers_(layers) {}

  void scan(const Tile& tile) {
    const TileLayers sample = layers_.sample(tile);
    add("depth", {sample.depth_low_water}, sample.depth_share, sample.inside);
    add_sources(sample);
    std::vector<std::uint8_t> water = sample.inside;
    for (std::size_t i = 0; i < water.size(); ++i) {
      const bool land = sample.depth_low_water[i] <= 0.0F;  // unknown is not land
      water[i] = land ? 0 : water[i];
    }
    add(plan_.temperature.key, sample.temperature, water);
    add(plan_.salinity.key, sample.salinity, water);
    add(plan_.light.key, sample.attenuation, water);
    add_nitrogen(sample, water);
    add(plan_.current.key, sample.current, water);
    add("sun", sample.radiation, water);
    std::size_t own = 0;
    for (const CriterionPlan& criterion : plan_.criteria) {
      if (criterion.file) {
        add(own_key(criterion), {sample.own[own]}, sample.own_share[own], water);
        ++own;
      }
    }
  }

  [[nodiscard]] const Cover* find(const std::string& key) const {
    const auto found = covers_.find(key);
    return found != covers_.end() ? &found->second : nullptr;
  }

 private:
  /// A source covers what it gives the depth of.
  void add_sources(const TileLayers& sample) {
    for (std::size_t i = 0; i < plan_.depth.several.size(); ++i) {
      const bool alone = sample.depth_source.empty();
      std::vector<float> own = sample.depth_low_water;
      for (std::size_t k = 0; k < own.size(); ++k) {
        own[k] =
            alone || sample.depth_source[k] == i ? own[k] : std::numeric_limits<float>::quiet_NaN();
      }
      add(plan_.depth.several[i].key, {own}, sample.depth_share, sample.inside);
    }
  }

  /// Nitrate is what is not ammonium, where they are given apart.
  void add_nitrogen(const TileLayers& sample, const std::vector<std::uint8_t>& water) {
    if (!plan_.ammonium) {
      add(plan_.nitrogen.key, sample.nitrogen, water);
      return;
    }
    const MonthlyTile nitrate = combined(sample.nitrogen, sample.ammonium, std::minus<float>());
    add(plan_.nitrate->key, nitrate, water);
    add(plan_.ammonium->key, sample.ammonium, water);
  }

  void add(const std::string& key, const MonthlyTile& tile,
           const std::vector<std::uint8_t>& counted) {
    add(key, months_in(tile), tile.share, counted);
  }
  void add(const std::string& key, const Months& months, std::span<const float> share,
           const std::vector<std::uint8_t>& counted) {
    if (!months.empty()) {
      add_cells(months, share, counted, covers_[key]);
    }
  }

  const Plan& plan_;
  LayerSet& layers_;
  std::map<std::string, Cover> covers_;
};

void join(std::string& text, const std::string& more) { text += (text.empty() ? "" : "; ") + more; }

void judge(LayerReport& report, const Cover& cover, const std::string& of,
           std::vector<std::string>& warnings) {
  const auto share_of_cells = [&](std::size_t count) {
    return cover.cells > 0 ? static_cast<double>(count) / static_cast<double>(cover.cells) : 0.0;
  };
  report.cover = share_of_cells(cover.known);
  report.patched = share_of_cells(cover.patched);
  report.low = cover.low;
  report.high = cover.high;
  if (report.key.starts_with("depth.sources")) {
    join(report.verdict,
         fmt::format("gives the depth of {} % of {}", fixed(100.0 * report.cover, 2), of));
  } else if (cover.cells > 0 && cover.known == 0) {
    join(report.verdict, "no data in the area: it stays unknown");
    warnings.push_back(report.key + ": no data in the area: it stays unknown");
  } else if (report.cover < 1.0) {
    join(report.verdict,
         fmt::format("no data in {} % of {}", fixed(100.0 * (1 - report.cover), 2), of));
  }
  if (report.key == "water.light" && cover.known > 0 && cover.low > kDarkEverywhere) {
    warnings.push_back(
        fmt::format("water.light: little light comes down anywhere (attenuation {} to {} 1/m); "
                    "check measure and "
                    "unit: Secchi depths in metres need measure = \"secchi\", unit = \"m\"",
                    fixed(cover.low, 2), fixed(cover.high, 2)));
  }
  if (cover.patched > 0) {
    join(report.verdict, fmt::format("at an edge, part of the neighbours missing, in {} %",
                                     fixed(100.0 * report.patched, 2)));
  }
}

}  // namespace

void report_cover(const Plan& plan, LayerSet& layers, std::vector<LayerReport>& reports,
                  std::vector<std::string>& warnings, std::size_t max_cells) {
  const auto tiles = tiles_of(layers.grid(), kTileSide);
  const std::size_t step = (layers.grid().size() + max_cells - 1) / max_cells;
  CoverScan scan(plan, layers);
  for (std::size_t i = 0; i < tiles.size(); i += step) {
    scan.scan(tiles[i]);
  }
  for (LayerReport& report : reports) {
    const Cover* cover = report.varies ? scan.find(report.key) : nullptr;
    if (cover != nullptr) {
      judge(report, *cover,
            report.key.starts_with("depth") ? "the cells" : "the cells that are not land",
            warnings);
      if (step > 1) {
        report.basis += fmt::format("; cover and range from one tile of cells in {}", step);
      }
    }
    if (report.verdict.empty()) {
      report.verdict = "good";
    }
  }
}

}  // namespace tidelot
