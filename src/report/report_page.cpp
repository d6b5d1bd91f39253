// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/html.hpp"
#include "report/map_view.hpp"
#include "report/parts.hpp"
#include "report/say.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace page {

/// How the crop is stocked and hauled, to follow "was grown day by day ...:".
std::string husbandry(const Plan& plan) {
  if (plan.crop.model == GrowthModel::kelp_frond) {
    return plain_say("method.fronds_seeded_per_metre_of_line",
                     shortest(plan.crop.at("fronds_per_m")));
  }
  return plain_say("method.stocked_at_g_of_fresh_weight", shortest(plan.farm.stocking_g_per_m),
                   plan.farm.harvest_days);
}

/// How the spread was made.
std::string how_sure(const Plan& plan) {
  const UncertaintyPlan& wish = plan.uncertainty;
  if (wish.draws == 0) {
    return label("method.no_spread_is_given_in_this");
  }
  return plain_say("method.the_season_was_grown_times_over", wish.draws, wish.draws, wish.seed,
                   wish.length_m ? plain_say("method.alike_over_about_m", shortest(*wish.length_m))
                                 : label("method.alike_all_over_the_bay"));
}

std::string method(const ReportData& data) {
  const Plan& plan = *data.plan;
  return element(
      "section id=\"method\"",
      element("h2", label("method.how_it_was_computed")) +
          element("p",
                  plain_say("method.every_layer_was_brought_onto_one", shortest(plan.area.cell_m),
                            text(plan.crop.title), husbandry(plan))) +
          element("p", label("method.yield_and_nitrogen_are_net")) + element("p", how_sure(plan)) +
          element("p", label("method.suitability_is_the_weighted_geometric_mean")) +
          element("p", label("method.what_is_not_known_is_never")));
}

/// The page with its maps sampled so.
std::string page_of(const ReportData& data, const Sampling& sampling, MapWriter& pictures) {
  const MapView view = view_of(data);
  const std::vector<CodedMap> maps = shown_maps(data, sampling);
  const std::string foot = for_paper(drawn_for(data) + cautions_foot());
  const std::vector<std::string> parts{
      title_block(*data.plan, label("words.report")),
      element("section id=\"the-answer\"", element("h2", say("answer.title")) + answer(data) +
                                               cautions_foot() + site_tables(data)) +
          for_paper(drawn_for(data)),
      map_section(view, maps, sampling, pictures),
      foot,
      maps_on_paper(view, maps, pictures),
      foot,
      site_sheets(data),
      load_section(data),
      water_tables(data),
      method(data),
      sources(data),
      assumptions(data),
      warnings(data),
      cautions_in_full(),
  };
  return html({data.plan->title, element("main id=\"top\"", lines(parts)),
               map_json(view, maps, read_out_maps(data, sampling), sampling, pictures), true});
}

/// A page is sent by mail and opened on a phone: it is kept below 4 MB.
constexpr std::size_t kMostBytes = 3'900'000;

}  // namespace page

std::string report_html(const ReportData& data, MapWriter& pictures) {
  const page::Speaking speaking(*data.plan->report.labels);
  page::Sampling sampling = page::sampling_of(*data.grid);
  std::string all = page::page_of(data, sampling, pictures);
  while (all.size() > page::kMostBytes && std::max(sampling.cols, sampling.rows) > 300) {
    const double shrink = 0.95 * std::sqrt(page::kMostBytes / static_cast<double>(all.size()));
    const int side = std::max(sampling.cols, sampling.rows);
    sampling = page::sampling_of(*data.grid, static_cast<int>(side * shrink));
    all = page::page_of(data, sampling, pictures);
  }
  return all;
}

}  // namespace tidelot
