// SPDX-License-Identifier: Apache-2.0
#include "run/record/record.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "geoio/geoio.hpp"
#include "report/site/site_figures.hpp"
#include "report/tables/near_json.hpp"
#include "run/compare/bay_json.hpp"
#include "run/record/layer_json.hpp"
#include "run/record/spread_json.hpp"
#include "tidelot/core/version.hpp"

namespace tidelot::run {
namespace {

using Json = nlohmann::ordered_json;

Json plan_json(const Plan& plan) {
  Json keys = Json::object();
  for (const ResolvedKey& key : plan.keys) {
    Json entry{{"value", Json::parse(key.value)}, {"given", key.given}};
    if (!key.given) {
      entry["basis"] = key.basis;
    }
    keys[key.key] = std::move(entry);
  }
  return {{"file", plan.path.string()}, {"title", plan.title}, {"keys", std::move(keys)}};
}

Json grid_of_run(const Area& area, const std::string& crs_name) {
  Json grid = grid_json(area.layers->grid(), crs_name);
  grid["scale"] = area.scale;
  grid["scale_error"] = area.scale_error;
  grid["convergence_deg"] = area.convergence_deg;
  return grid;
}

Json inputs_json(const std::vector<std::pair<FileRef, Digest>>& inputs) {
  Json out = Json::array();
  for (const auto& [file, digest] : inputs) {
    Json sum = file.remote ? Json() : Json(digest.sha256);
    out.push_back({{"file", file.written}, {"bytes", digest.bytes}, {"sha256", std::move(sum)}});
  }
  return out;
}

Json named_counts(const std::vector<std::size_t>& counts, const std::vector<std::string>& names) {
  Json out = Json::object();
  for (std::size_t i = 0; i < counts.size() && i < names.size(); ++i) {
    if (counts[i] > 0) {
      out[names[i]] = counts[i];
    }
  }
  return out;
}

/// Hectares of `cells` for everything that closes water, by itself or with others.
Json closed_hectares(const std::vector<std::size_t>& cells, const RunSummary& summary,
                     double cell_ha) {
  Json out = Json::object();
  const std::vector<std::size_t>& closed = summary.counts.closed_by_bit;
  for (std::size_t i = 0; i < closed.size() && i < summary.closed_bit_names.size(); ++i) {
    if (closed[i] > 0) {
      out[summary.closed_bit_names[i]] = static_cast<double>(cells[i]) * cell_ha;
    }
  }
  return out;
}

Json counts_json(const RunSummary& summary, double areal_scale) {
  const RunCounts& c = summary.counts;
  const double cell_ha = summary.grid.cell_m * summary.grid.cell_m / areal_scale / 1e4;
  return {{"cells", c.cells},
          {"land", c.land},
          {"water", c.water},
          {"closed", c.closed},
          {"open", c.open},
          {"unknown", c.unknown},
          {"water_ha", c.water_ha},
          {"closed_ha", c.closed_ha},
          {"open_ha", c.open_ha},
          {"water_cells_closed_by", named_counts(c.closed_by_bit, summary.closed_bit_names)},
          {"water_ha_closed_by", closed_hectares(c.closed_by_bit, summary, cell_ha)},
          {"water_ha_closed_only_by", closed_hectares(c.closed_only_by_bit, summary, cell_ha)},
          {"cells_by_reason", named_counts(c.by_reason, summary.reason_names)},
          {"sites", summary.sites.ranked.size()},
          {"sites_listed_apart", summary.sites.apart.size()},
          {"eligible_cells", summary.sites.eligible_cells}};
}

/// A choice with its value under the plan's key.
Json choice_json(const Choice& choice) {
  Json out = Json::object();
  switch (choice.of) {
    case Choice::Of::line_depth:
      out["line_depth_m"] = choice.value;
      break;
    case Choice::Of::stocking:
      out["stocking_g_per_m"] = choice.value;
      break;
    case Choice::Of::fronds:
      out["fronds_per_m"] = choice.value;
      break;
    case Choice::Of::harvest_days:
      out["harvest_days"] = static_cast<int>(choice.value);
      break;
    case Choice::Of::season:
      out["outplant"] = format_month_day(choice.outplant);
      out["last_haul"] = format_month_day(choice.last_haul);
      break;
  }
  out["plan"] = choice.plan;
  out["yield_t"] = choice.yield_t;
  out["nitrogen_kg"] = choice.nitrogen_kg;
  out["harvests"] = choice.harvests;
  return out;
}

/// Per site, what one thing changed at a time would give.
Json choices_json(const SitesResult& sites) {
  Json out = Json::object();
  for (const std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (const Site& site : *list) {
      Json all = Json::array();
      for (const Choice& choice : site.choices) {
        all.push_back(choice_json(choice));
      }
      out[site.name] = std::move(all);
    }
  }
  return out;
}

/// What the crop's own draw-down of nitrogen does at each site; null where it is not counted.
Json draw_down_json(const SitesResult& sites) {
  Json out = Json::object();
  for (const std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (const Site& site : *list) {
      out[site.name] = nullptr;
      if (site.draw_down) {
        out[site.name] = {{"supply_kg", site.draw_down->supply_kg},
                          {"taken_up_kg", site.draw_down->taken_up_kg},
                          {"lowest_share", site.draw_down->lowest_share}};
      }
    }
  }
  return out;
}

/// Each ranked site while all are farmed at once; null where that is not computed. And their sum.
Json neighbours_json(const SitesResult& sites) {
  Json out = Json::object();
  for (const Site& site : sites.ranked) {
    out[site.name] = nullptr;
    if (const auto& all = site.with_neighbours) {
      out[site.name] = {
          {"yield_t", all->yield_t}, {"nitrogen_kg", all->nitrogen_kg}, {"sites", all->sites}};
    }
  }
  return out;
}

/// Which sites were visited; null where no reading was taken there.
Json field_checked_json(const SitesResult& sites) {
  Json out = Json::object();
  for (const std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (const Site& site : *list) {
      out[site.name] = nullptr;
      if (site.field) {
        out[site.name] = {{"last", site.field->last},
                          {"visits", site.field->days},
                          {"months", page::field_months(site)}};
      }
    }
  }
  return out;
}

/// What the [[near]] tests found, site by site.
Json near_of_sites(const SitesResult& sites, const Plan& plan) {
  Json out = Json::object();
  for (const std::vector<Site>* list : {&sites.ranked, &sites.apart}) {
    for (const Site& site : *list) {
      out[site.name] = page::near_json(site.near, plan);
    }
  }
  return out;
}

Json known(double value) { return std::isnan(value) ? Json(nullptr) : Json(value); }
Json known(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

Json moved_json(const MovedWater& water) {
  return {{"value", known(water.value)},
          {"open_ha", water.open_ha},
          {"best_site_yield_without_t", known(water.yield_t)},
          {"best_site_offset_m", known(water.offset_m)}};
}

/// The distances and limits, each moved down and up; null where the plan does not ask.
Json what_if_json(const std::optional<WhatIf>& what_if) {
  if (!what_if) {
    return nullptr;
  }
  Json keys = Json::array();
  for (const MovedKey& key : what_if->keys) {
    keys.push_back({{"key", key.key},
                    {"name", key.name},
                    {"unit", key.unit},
                    {"value", known(key.value)},
                    {"less", moved_json(key.less)},
                    {"more", moved_json(key.more)}});
  }
  return {{"share", what_if->share},
          {"open_ha", what_if->open_ha},
          {"best_site_yield_without_t", known(what_if->yield_t)},
          {"keys", std::move(keys)}};
}

Json sum_json(const SitesResult& sites) {
  const page::SumOfSites sum = page::sum_of(sites.ranked);
  return {{"yield_t", sum.yield_t},
          {"nitrogen_kg", sum.nitrogen_kg},
          {"yield_with_neighbours_t", sum.yield_together_t},
          {"nitrogen_with_neighbours_kg", sum.nitrogen_together_kg}};
}

/// How many sheets for print were written, and why others were not.
Json sheets_json(const RunSummary& summary) {
  Json left_out = Json::array();
  for (const SheetLeftOut& each : summary.sheets_left_out) {
    left_out.push_back({{"title", each.title}, {"why", each.why}});
  }
  return {{"written", summary.sheets}, {"left_out", std::move(left_out)}};
}

/// Cells that a stopped run had finished; null where none was to be gone on with.
Json kept_json(const std::optional<std::size_t>& cells) { return cells ? Json(*cells) : Json(); }

/// In MiB; no ceiling: null.
Json memory_json(const HeldMemory& memory) {
  constexpr double kMebibyte = 1024.0 * 1024.0;
  const auto whole = [&](std::size_t bytes) {
    return static_cast<std::size_t>(std::ceil(static_cast<double>(bytes) / kMebibyte));
  };
  return {{"predicted_mib", whole(memory.predicted)},
          {"ceiling_mib", memory.ceiling ? Json(whole(*memory.ceiling)) : Json()},
          {"peak_mib", whole(memory.peak)}};
}

}  // namespace

std::string run_json(const Record& record) {
  Json timings = Json::object();
  for (const Timing& t : record.timings) {
    timings[t.stage] = t.seconds;
  }
  const Json out{{"program", "tidelot"},
                 {"version", version()},
                 {"identity", record.identity},
                 {"libraries", {{"gdal", geoio::gdal_version()}, {"proj", geoio::proj_version()}}},
                 {"plan", plan_json(*record.plan)},
                 {"grid", grid_of_run(*record.area, record.summary->grid_crs_name)},
                 {"inputs", inputs_json(record.inputs)},
                 {"layers", layers_json(record.area->layers->reports())},
                 {"field", field_json(*record.plan, record.area->layers->field_checks())},
                 {"field_checked", field_checked_json(record.summary->sites)},
                 {"counts", counts_json(*record.summary, record.area->areal_scale)},
                 {"warnings", record.summary->warnings},
                 {"notes", record.summary->sites.notes},
                 {"near", near_of_sites(record.summary->sites, *record.plan)},
                 {"draw_down", draw_down_json(record.summary->sites)},
                 {"neighbours", neighbours_json(record.summary->sites)},
                 {"all_sites", sum_json(record.summary->sites)},
                 {"uncertainty", spread_json(*record.plan, record.uncertain, record.lattice,
                                             record.summary->sites)},
                 {"choices", choices_json(record.summary->sites)},
                 {"what_if", what_if_json(record.summary->what_if)},
                 {"bay", bay_json(record.bay)},
                 {"outputs", record.outputs},
                 {"sheets", sheets_json(*record.summary)},
                 {"threads", record.threads},
                 {"memory", memory_json(record.memory)},
                 {"kept_cells", kept_json(record.summary->kept_cells)},
                 {"seconds", std::move(timings)}};
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tidelot::run
