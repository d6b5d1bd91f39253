// SPDX-License-Identifier: Apache-2.0
// Bays made up for tests of comparisons.
#pragma once

#include <string>
#include <vector>

#include "tidelot/report/compare.hpp"

namespace compared_bays {

using namespace tidelot;

/// One site of 600 m of line whose nitrogen is the members' mean.
inline Bay bay(const std::string& title, std::vector<double> nitrogen_kg) {
  Bay out;
  out.title = title;
  out.crop = "warm-red-alga";
  out.water_ha = 200.0;
  out.open_ha = 50.0;
  out.draws = static_cast<int>(nitrogen_kg.size());
  out.seed = 1;
  double mean = 0.0;
  for (const double value : nitrogen_kg) {
    mean += value / static_cast<double>(nitrogen_kg.size());
  }
  BaySite site;
  site.name = "S01";
  site.account.line_m = 600.0;
  site.account.gear_ha = 0.5;
  site.account.lease_ha = 1.2;
  site.account.nitrogen_kg = mean;
  site.account.season_days = 150;
  site.together_kg = mean;
  site.together_t = site.yield_t = mean / 4.0;
  site.lines = 6;
  site.outplant = 135;
  site.last_haul = 284;
  out.sites = {site};
  out.all = site.account;
  if (!nitrogen_kg.empty()) {
    std::vector<float> narrow(nitrogen_kg.begin(), nitrogen_kg.end());
    const Quantiles q = quantiles_of(narrow);
    out.all.nitrogen_p10_kg = q.p10;
    out.all.nitrogen_p90_kg = q.p90;
  }
  out.best_members.nitrogen_kg = out.all_members.nitrogen_kg = nitrogen_kg;
  return out;
}

inline Comparison of(std::vector<Bay> bays) {
  Comparison all;
  for (Bay& each : bays) {
    all.names.push_back(each.title);
    all.bays.push_back({each.title, std::move(each), {}, {}, {}});
  }
  return all;
}

}  // namespace compared_bays
