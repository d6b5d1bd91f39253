// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/maps/map_view.hpp"
#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
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

/// What stands before and after the maps: it does not hang on how they are sampled.
struct Words {
  std::string before;
  std::string foot;  ///< of a sheet of maps
  std::string after;
};

Words words_of(const ReportData& data) {
  const std::vector<std::string> before{
      title_block(*data.plan, label("words.report")),
      element("section id=\"the-answer\"", element("h2", say("answer.title")) + answer(data) +
                                               cautions_foot() + site_tables(data)) +
          for_paper(drawn_for(data)),
  };
  const std::vector<std::string> after{
      site_sheets(data), load_section(data), water_tables(data), method(data),
      sources(data),     assumptions(data),  warnings(data),     cautions_in_full(),
  };
  return {lines(before), for_paper(drawn_for(data) + cautions_foot()), lines(after)};
}

/// The page with such maps.
std::string page_of(const ReportData& data, const Words& words, const PageMaps& maps,
                    MapWriter& pictures) {
  const MapView view = view_of(data);
  const std::vector<std::string> middle{map_section(view, maps, pictures), words.foot,
                                        maps_on_paper(view, maps.shown, pictures), words.foot};
  return html({data.plan->title,
               element("main id=\"top\"", words.before + lines(middle) + words.after),
               map_json(view, maps), true,
               fmt::format(".stage {{ --w: {}; --h: {}; }}\n", data.grid->cols, data.grid->rows)});
}

/// A page is sent by mail and opened on a phone: it is kept below 4 MB.
constexpr std::size_t kMostBytes = 3'900'000;
constexpr int kLeastSide = 300;
/// Samples of which a page holds what there is, but for odd maps; above, it is judged from a part
/// of them first.
constexpr std::size_t kFewSamples = std::size_t{1} << 20;

int side_of(const Sampling& sampling) { return std::max(sampling.cols, sampling.rows); }

/// A sampling so much coarser that a page of so many bytes should come to fit.
Sampling shrunk(const Sampling& sampling, const Grid& grid, double bytes) {
  const double shrink = 0.95 * std::sqrt(kMostBytes / bytes);
  return sampling_of(grid, static_cast<int>(side_of(sampling) * shrink));
}

/// About the bytes of the page at a sampling, from the pictures of a part of its rows.
double likely_bytes(const ReportData& data, const Words& words, const Sampling& sampling,
                    MapWriter& pictures, const EachOf& each) {
  const PageMaps part = page_maps(data, thinned(sampling), still_zoom(sampling), pictures, each);
  const double rest = static_cast<double>(page_of(data, words, part, pictures).size()) -
                      static_cast<double>(bytes_of(part));
  return rest + static_cast<double>(bytes_of(part)) * sampling.rows / part.sampling.rows;
}

/// All the cells where the page can be expected to hold them.
Sampling first_sampling(const ReportData& data, const Words& words, MapWriter& pictures,
                        const EachOf& each) {
  Sampling sampling = sampling_of(*data.grid);
  if (sampling.size() > kFewSamples && sampling.rows > kBand * kThinned) {
    const double bytes = likely_bytes(data, words, sampling, pictures, each);
    return bytes > kMostBytes ? shrunk(sampling, *data.grid, bytes) : sampling;
  }
  return sampling;
}

std::string report(const ReportData& data, MapWriter& pictures, const EachOf& each) {
  const Words words = words_of(data);
  Sampling sampling = first_sampling(data, words, pictures, each);
  for (;;) {
    const int zoom = still_zoom(sampling);
    const PageMaps maps = page_maps(data, std::move(sampling), zoom, pictures, each);
    std::string page = page_of(data, words, maps, pictures);
    if (page.size() <= kMostBytes || side_of(maps.sampling) <= kLeastSide) {
      return page;
    }
    sampling = shrunk(maps.sampling, *data.grid, static_cast<double>(page.size()));
  }
}

}  // namespace page

void in_turn(std::size_t count, const std::function<void(std::size_t)>& task) {
  for (std::size_t i = 0; i < count; ++i) {
    task(i);
  }
}

std::string report_html(const ReportData& data, MapWriter& pictures, const EachOf& each) {
  const page::Speaking speaking(*data.plan->report.labels);
  return page::report(data, pictures, each);
}

}  // namespace tidelot
