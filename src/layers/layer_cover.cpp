// SPDX-License-Identifier: Apache-2.0
#include "layer_cover.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <span>

#include "depth_sign.hpp"
#include "layer_fields.hpp"
#include "monthly_tile.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr int kTileSide = 128;
/// Attenuation, 1/m: of one per cent of the light three metres down. Judgement.
constexpr double kDarkEverywhere = 1.5;
/// A layer knows land from water where its data cover so much more of the one. Judgement.
constexpr double kTellsApart = 0.5;

/// Of the cells that count, those a layer has data for.
struct Share {
  std::size_t cells = 0;
  std::size_t known = 0;

  [[nodiscard]] double value() const {
    return cells > 0 ? static_cast<double>(known) / static_cast<double>(cells) : 0.0;
  }
  Share& operator+=(const Share& other) {
    cells += other.cells;
    known += other.known;
    return *this;
  }
};

struct Cover {
  Share share;
  std::size_t patched = 0;  ///< known from part of the neighbours
  float low = std::numeric_limits<float>::infinity();
  float high = -std::numeric_limits<float>::infinity();
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
std::vector<std::uint8_t> known_in_all(const Months& months) {
  std::vector<std::uint8_t> known(months.front().size(), 1);
  for (const std::span<const float> month : months) {
    for (std::size_t i = 0; i < known.size(); ++i) {
      known[i] &= static_cast<std::uint8_t>(month[i] == month[i]);  // is a number
    }
  }
  return known;
}

Share share_of(const std::vector<std::uint8_t>& known, const std::vector<std::uint8_t>& counted) {
  Share share;
  for (std::size_t i = 0; i < counted.size(); ++i) {
    share.cells += counted[i];
    share.known += counted[i] & known[i];
  }
  return share;
}

void add_range(std::span<const float> month, const std::vector<std::uint8_t>& used, Cover& cover) {
  float low = cover.low;
  float high = cover.high;
  for (std::size_t i = 0; i < used.size(); ++i) {
    low = used[i] != 0 && month[i] < low ? month[i] : low;
    high = used[i] != 0 && month[i] > high ? month[i] : high;
  }
  cover.low = low;
  cover.high = high;
}

void add_cells(const Months& months, std::span<const float> share,
               const std::vector<std::uint8_t>& known, const std::vector<std::uint8_t>& counted,
               Cover& cover) {
  cover.share += share_of(known, counted);
  std::vector<std::uint8_t> used(counted.size());
  for (std::size_t i = 0; i < counted.size(); ++i) {
    used[i] = counted[i] & known[i];
  }
  for (std::size_t i = 0; i < share.size(); ++i) {
    cover.patched += used[i] != 0 && share[i] < 1.0F ? 1 : 0;
  }
  for (const std::span<const float> month : months) {
    add_range(month, used, cover);
  }
}

class CoverScan {
 public:
  CoverScan(const Plan& plan, LayerSet& layers)
      : plan_(plan), layers_(layers), closed_(layers.grid(), layers.closed()) {}

  void scan(const Tile& tile) {
    const TileLayers sample = layers_.sample(tile);
    closed_.look_at(tile, sample.depth_low_water);
    land_ = sample.inside;
    std::vector<std::uint8_t> water = sample.inside;
    for (std::size_t i = 0; i < water.size(); ++i) {
      const bool land = sample.depth_low_water[i] <= 0.0F;  // unknown is not land
      water[i] = land ? 0 : water[i];
      land_[i] = land ? land_[i] : 0;
      if (sample.inside[i] != 0) {
        depths_.add(sample.depth_low_water[i]);
      }
    }
    add("depth", {sample.depth_low_water}, sample.depth_share, sample.inside);
    add_sources(sample);
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
  [[nodiscard]] const WaterTally& depths() const { return depths_; }

  /// Closed areas, and the layers of water that have data on the one side of the shore only. Those
  /// that are spread from stations end at the land of these very depths: no witnesses.
  [[nodiscard]] std::vector<SeaWitness> witnesses(const std::vector<LayerReport>& reports) const {
    std::vector<SeaWitness> all = closed_.all();
    for (const LayerReport& report : reports) {
      if (report.varies && report.months.empty() && report.key.starts_with("water.")) {
        all.push_back({"data of " + report.key, 1.0, side_of_data(report.key)});
      }
    }
    return all;
  }

 private:
  /// On which side of the shore a layer has its data; on neither where it does not tell them apart.
  [[nodiscard]] WaterTally side_of_data(const std::string& key) const {
    const Cover* const water = find(key);
    const auto land = on_land_.find(key);
    if (water == nullptr || land == on_land_.end() || water->share.cells == 0 ||
        land->second.cells == 0) {
      return {};
    }
    const double more = water->share.value() - land->second.value();
    return {more > kTellsApart ? std::size_t{1} : 0, more < -kTellsApart ? std::size_t{1} : 0};
  }

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
      const std::vector<std::uint8_t> known = known_in_all(months);
      add_cells(months, share, known, counted, covers_[key]);
      on_land_[key] += share_of(known, land_);
    }
  }

  const Plan& plan_;
  LayerSet& layers_;
  SeaWitnesses closed_;
  std::vector<std::uint8_t> land_;  ///< of the tile that is scanned
  WaterTally depths_;
  std::map<std::string, Cover> covers_;
  std::map<std::string, Share> on_land_;
};

void join(std::string& text, const std::string& more) { text += (text.empty() ? "" : "; ") + more; }

void judge(LayerReport& report, const Cover& cover, const std::string& of,
           std::vector<std::string>& warnings) {
  const bool any = cover.share.known > 0;
  report.cover = cover.share.value();
  report.patched =
      any ? static_cast<double>(cover.patched) / static_cast<double>(cover.share.cells) : 0.0;
  report.low = any ? static_cast<double>(cover.low) : 0.0;
  report.high = any ? static_cast<double>(cover.high) : 0.0;
  if (report.key.starts_with("depth.sources")) {
    join(report.verdict,
         fmt::format("gives the depth of {} % of {}", fixed(100.0 * report.cover, 2), of));
  } else if (cover.share.cells > 0 && !any) {
    join(report.verdict, "no data in the area: it stays unknown");
    warnings.push_back(report.key + ": no data in the area: it stays unknown");
  } else if (report.cover < 1.0 && report.key != "depth") {
    join(report.verdict,
         fmt::format("no data in {} % of {}", fixed(100.0 * (1 - report.cover), 2), of));
  }
  if (report.key == "water.light" && any && report.low > kDarkEverywhere) {
    warnings.push_back(
        fmt::format("water.light: little light comes down anywhere (attenuation {} to {} 1/m); "
                    "check measure and "
                    "unit: Secchi depths in metres need measure = \"secchi\", unit = \"m\"",
                    fixed(report.low, 2), fixed(report.high, 2)));
  }
  if (cover.patched > 0) {
    join(report.verdict, fmt::format("at an edge, part of the neighbours missing, in {} %",
                                     fixed(100.0 * report.patched, 2)));
  }
}

/// "at low water 61 % water, 38 % land, 1 % no data": of the cells inside the area.
std::string shares_text(const WaterTally& depths, const Cover& cover) {
  const auto percent = [&](std::size_t count) {
    return fixed(100.0 * static_cast<double>(count) / static_cast<double>(cover.share.cells), 1);
  };
  std::string text = fmt::format("at low water {} % water, {} % land", percent(depths.water),
                                 percent(depths.land));
  if (cover.share.known < cover.share.cells) {
    text += fmt::format(", {} % no data", percent(cover.share.cells - cover.share.known));
  }
  return text;
}

void judge_sign(const Plan& plan, const CoverScan& scan, std::vector<SeaWitness> witnesses,
                std::vector<LayerReport>& reports, std::vector<std::string>& warnings) {
  const Cover* const cover = scan.find("depth");
  const auto report = std::find_if(reports.begin(), reports.end(),
                                   [](const LayerReport& r) { return r.key == "depth"; });
  if (cover == nullptr || cover->share.known == 0 || report == reports.end()) {
    return;
  }
  const std::string shares = shares_text(scan.depths(), *cover);
  join(report->verdict, shares);
  for (SeaWitness& witness : scan.witnesses(reports)) {
    witnesses.push_back(std::move(witness));
  }
  const std::vector<std::string> ashore = those_on_land(witnesses);
  if (!ashore.empty()) {
    warnings.push_back(fmt::format(
        "{}: the depths look upside down: {}, and mostly on that land lie what belongs into the "
        "water: {}; check positive (\"down\" for depths, \"up\" for elevations)",
        plan.depth.several.empty() ? "depth.positive" : "depth.sources", shares,
        fmt::join(ashore, ", ")));
  }
}

}  // namespace

void report_cover(const Plan& plan, LayerSet& layers, std::vector<LayerReport>& reports,
                  std::vector<std::string>& warnings, const std::vector<SeaWitness>& witnesses,
                  std::size_t max_cells) {
  const auto tiles = tiles_of(layers.grid(), kTileSide);
  const std::size_t step = (layers.grid().size() + max_cells - 1) / max_cells;
  CoverScan scan(plan, layers);
  for (std::size_t i = 0; i < tiles.size(); i += step) {
    scan.scan(tiles[i]);
  }
  judge_sign(plan, scan, witnesses, reports, warnings);
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
