// SPDX-License-Identifier: Apache-2.0
#include "report/page/meeting.hpp"

#include <algorithm>
#include <optional>

#include "report/site/site_figures.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

/// Has a name one of the words of a label, "channel, fairway"?
bool names_one_of(std::string_view name, std::string_view words_label) {
  const std::string small = lower_ascii(name);
  std::string_view words = label(words_label);
  while (!words.empty()) {
    const std::size_t comma = words.find(',');
    const std::string word = lower_ascii(words.substr(0, comma));
    const std::size_t first = word.find_first_not_of(' ');
    if (first != std::string::npos && small.find(word.substr(first)) != std::string::npos) {
      return true;
    }
    words.remove_prefix(comma == std::string_view::npos ? words.size() : comma + 1);
  }
  return false;
}

/// One site's answers.
class Answers {
 public:
  Answers(const Site& site, const ReportData& data) : site_(site), data_(data) {}

  [[nodiscard]] std::string shore() const {
    if (!site_.shore) {
      return say("meeting.no_land", room());
    }
    return say(site_.shore->map_ends_nearer ? "meeting.shore_or_nearer" : "meeting.shore_lies",
               far(site_.shore->distance_m), bearing(site_.shore->bearing_deg));
  }

  /// How far a rule lies whose name has one of the words of a label; else who must say it.
  [[nodiscard]] std::string named(std::string_view words_label, std::string_view who_says) const {
    const auto found = rule_with(words_label);
    if (found != site_.rules.end()) {
      return far_from(*found);
    }
    for (const ClosedLayer& layer : data_.closed) {
      if (layer.features.empty() && names_one_of(layer.plan.name, words_label)) {
        return say("meeting.no_shape", text(layer.plan.name));
      }
    }
    return say(who_says, room());
  }

  [[nodiscard]] std::string dock() const {
    if (site_.landing_km) {
      return say("meeting.landing", far(*site_.landing_km * 1000.0), room());
    }
    return site_.landing ? say("meeting.landing_straight", far(site_.landing->distance_m), room())
                         : say("meeting.no_landing", room());
  }

  [[nodiscard]] std::string buoys() const {
    const std::size_t markers = site_.gear.markers.size();
    const auto corners = static_cast<std::size_t>(
        std::count_if(site_.gear.markers.begin(), site_.gear.markers.end(),
                      [](const Marker& each) { return each.kind == Marker::Kind::corner; }));
    return say("meeting.buoys_are", corners, markers - corners, 2 * site_.layout.lines,
               words(length(kMarkerHeight_m)), room(), room(), room());
  }

  [[nodiscard]] std::string gone() const {
    const auto& gear_out = data_.plan->season.gear_out;
    return gear_out ? say("meeting.gear_out", date(site_.last_haul), date(*gear_out))
                    : say("meeting.last_haul", date(site_.last_haul), room());
  }

  [[nodiscard]] std::string still() const {
    const FarmPlan& farm = data_.plan->farm;
    return say(farm.fixed_line ? "meeting.lines_fixed" : "meeting.lines_float", site_.layout.lines,
               words(length(farm.line_depth_m)), words(length(farm.line_gap_m)),
               dates(site_.outplant, site_.last_haul)) +
           " " + say("meeting.may_one", room(), room(), room(), room(), room());
  }

  [[nodiscard]] std::string eelgrass() const {
    return named("meeting.words_eelgrass", "meeting.no_eelgrass_layer") + " " +
           say("meeting.nobody_cleared", room());
  }

  [[nodiscard]] std::string farms() const {
    std::string all;
    const auto found = rule_with("meeting.words_farms");
    if (found != site_.rules.end()) {
      const ClosedLayer& layer = data_.closed[static_cast<std::size_t>(found->rule)];
      all = say("meeting.shapes", layer.features.size(), far_from(*found));
    }
    for (const ShapesNear& test : site_.near) {
      const NearPlan& plan = data_.plan->near.at(static_cast<std::size_t>(test.test));
      if (names_one_of(plan.name, "meeting.words_farms")) {
        all += (all.empty() ? "" : " ") +
               say("meeting.within", text(plan.name), test.within, words(length(plan.distance_m)));
      }
    }
    return all.empty() ? say("meeting.no_farm_layer", room()) : all;
  }

 private:
  [[nodiscard]] std::string words(const Measure& measure) const {
    return text(in_line(measure, data_.plan->report.units));
  }
  [[nodiscard]] std::string far(double m) const { return words(distance(m)); }
  [[nodiscard]] std::string far_from(const RuleDistance& rule) const {
    const std::string name = text(rule_name(rule, *data_.plan));
    return rule.distance_m > 0.0
               ? say("meeting.from_the_edge", name, far(rule.distance_m), bearing(rule.bearing_deg))
               : say("meeting.inside", name);
  }
  /// The nearest of the rules whose name has one of the words.
  [[nodiscard]] std::vector<RuleDistance>::const_iterator rule_with(
      std::string_view words_label) const {
    return std::find_if(site_.rules.begin(), site_.rules.end(), [&](const RuleDistance& rule) {
      return names_one_of(rule_name(rule, *data_.plan), words_label);
    });
  }

  const Site& site_;
  const ReportData& data_;
};

}  // namespace

std::vector<std::pair<std::string, std::string>> meeting_questions(const Site& site,
                                                                   const ReportData& data) {
  const Answers answers(site, data);
  return {
      {label("meeting.shore"), answers.shore()},
      {label("meeting.channel"),
       answers.named("meeting.words_channel", "meeting.no_channel_layer")},
      {label("meeting.moorings"),
       answers.named("meeting.words_moorings", "meeting.no_moorings_layer")},
      {label("meeting.dock"), answers.dock()},
      {label("meeting.buoys"), answers.buoys()},
      {label("meeting.call"), say("meeting.applicant_calls", room(true))},
      {label("meeting.gone"), answers.gone()},
      {label("meeting.loose"), say("meeting.applicant_fetches", room(true))},
      {label("meeting.still"), answers.still()},
      {label("meeting.bottom"), say("meeting.no_bottom_layer", room())},
      {label("meeting.eelgrass"), answers.eelgrass()},
      {label("meeting.farms"), answers.farms()},
  };
}

}  // namespace tidelot::page
