// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/parts.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

/// The season of a site as a drawing: weight and tissue nitrogen day by day, the harvests, and
/// month by month what held growth back. Words and line styles tell things apart, never colour
/// alone.
namespace tidelot::page {
namespace {

constexpr double kWidth = 680.0;
constexpr double kHeight = 178.0;
constexpr double kLeft = 46.0;
constexpr double kRight = 634.0;
constexpr double kTop = 22.0;
constexpr double kBottom = 122.0;
constexpr double kStrip = 134.0;  ///< top of the month strip
constexpr double kStripHeight = 20.0;
constexpr double kLetter = 6.2;  ///< width of a letter, generous

/// The smallest of 1, 2, 3, 4, 5, 6, 8 times a power of ten that is not below the value; 1 for 0.
double axis_top(double value) {
  if (!(value > 0.0)) {
    return 1.0;
  }
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double step : {1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0}) {
    if (step * power >= value) {
      return step * power;
    }
  }
  return 10.0 * power;
}

double x_of(const SiteSeason& season, double day) {
  return kLeft + (kRight - kLeft) * day / static_cast<double>(season.biomass_g_per_m.size());
}

double y_of(double value, double top) { return kBottom - (kBottom - kTop) * value / top; }

std::string words_at(double x, double y, std::string_view anchor, std::string_view words) {
  return fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\">{}</text>", fixed(x, 1),
                     fixed(y, 1), anchor, text(words));
}

/// Weight at the end of each day; on a harvest down to what is left.
std::string weight_curve(const SiteSeason& season, double top) {
  std::string path;
  std::size_t next = 0;
  for (std::size_t i = 0; i < season.biomass_g_per_m.size(); ++i) {
    const double weight = season.biomass_g_per_m[i];
    const std::string x = fixed(x_of(season, static_cast<double>(i) + 1.0), 1);
    path += fmt::format("{}{} {}", i == 0 ? "M" : "L", x, fixed(y_of(weight, top), 1));
    if (next < season.harvests.size() && season.harvests[next].day == static_cast<int>(i)) {
      path += fmt::format("V{}", fixed(y_of(weight - season.harvests[next++].g_per_m, top), 1));
    }
  }
  return fmt::format("<path class=\"weight\" d=\"{}\"/>", path);
}

std::string nitrogen_curve(const SiteSeason& season, double top) {
  std::string path;
  for (std::size_t i = 0; i < season.tissue_n.size(); ++i) {
    path += fmt::format("{}{} {}", i == 0 ? "M" : "L",
                        fixed(x_of(season, static_cast<double>(i) + 1.0), 1),
                        fixed(y_of(100.0 * season.tissue_n[i], top), 1));
  }
  return fmt::format("<path class=\"nitrogen\" d=\"{}\"/>", path);
}

/// The frame with 0, half and top at both sides, and what the sides measure.
std::string axes(double weight_top, double nitrogen_top) {
  std::string all = fmt::format("<path class=\"axis\" d=\"M{0} {1}V{2}H{3}V{1}\"/>", kLeft, kTop,
                                kBottom, kRight);
  for (const double share : {0.0, 0.5, 1.0}) {
    const double y = y_of(share, 1.0) + 4.0;
    all += words_at(kLeft - 5.0, y, "end", fmt::format("{:.4g}", share * weight_top)) +
           words_at(kRight + 5.0, y, "start", fmt::format("{:.3g}", share * nitrogen_top));
  }
  return all + words_at(2.0, 11.0, "start", label("chart.fresh_weight_g_per_m")) +
         words_at(kWidth - 2.0, 11.0, "end", label("chart.nitrogen_of_dry_weight_dashed"));
}

/// A small triangle under the axis on every harvest day.
std::string harvest_marks(const SiteSeason& season) {
  std::string all;
  for (const SiteSeason::Harvest& harvest : season.harvests) {
    all += fmt::format("<path class=\"haul\" d=\"M{} {}l-3.5 7h7Z\"/>",
                       fixed(x_of(season, harvest.day + 1.0), 1), kBottom + 2.0);
  }
  return all;
}

/// The longest of the word and its first letter that fits.
std::string fitting(std::string_view word, double width) {
  const bool fits = kLetter * static_cast<double>(word.size()) + 4.0 <= width;
  if (fits) {
    return std::string(word);
  }
  std::size_t letter = 1;  // its first, of as many bytes as it takes
  while (letter < word.size() && (static_cast<unsigned char>(word[letter]) & 0xC0) == 0x80) {
    ++letter;
  }
  return std::string(word.substr(0, letter));
}

std::string month_strip(const SiteSeason& season) {
  std::string all;
  for (const SeasonMonth& month : season.months) {
    const double from = x_of(season, month.first - season.window.outplant);
    const double to = x_of(season, month.first - season.window.outplant + month.days);
    const double middle = (from + to) / 2.0;
    all += fmt::format("<path class=\"month\" d=\"M{} {}H{}V{}H{}Z\"/>", fixed(from, 1), kStrip,
                       fixed(to, 1), kStrip + kStripHeight, fixed(from, 1));
    all += words_at(middle, kStrip + 14.0, "middle",
                    fitting(translated(std::string(limit_word(month.limit))), to - from));
    if (to - from > 3.0 * kLetter) {
      all += words_at(middle, kStrip + kStripHeight + 13.0, "middle", short_month(month.month));
    }
  }
  return all;
}

/// "Jun light; Jul nothing".
std::string held_back(std::span<const SeasonMonth> months) {
  std::string all;
  for (const SeasonMonth& month : months) {
    all += fmt::format("{}{} {}", all.empty() ? "" : "; ", short_month(month.month),
                       translated(std::string(limit_word(month.limit))));
  }
  return all;
}

/// "3 too cold, 2 too warm"; "none".
std::string stopped(const ToleranceDays& days) {
  std::string all;
  const auto add = [&](int count, std::string_view name) {
    if (count > 0) {
      all += (all.empty() ? "" : ", ") + plain_say(name, count);
    }
  };
  add(days.too_cold, "chart.too_cold");
  add(days.too_warm, "chart.too_warm");
  add(days.too_fresh, "chart.too_fresh");
  add(days.too_salty, "chart.too_salty");
  return all.empty() ? label("words.none") : all;
}

std::string caption(const SiteSeason& season, const Plan& plan, double weight_top) {
  return text(plain_say("chart.held_back_most_by_month", held_back(season.months),
                        stopped(season.beyond), season.harvests.size(),
                        dates(season.water.outplant, season.water.last_haul),
                        dates(season.window.outplant, season.window.last_haul),
                        in_line(crop_per_m(weight_top / 1000.0), plan.report.units)));
}

}  // namespace

std::string season_chart(const Site& site, const Plan& plan) {
  if (!site.season || site.season->biomass_g_per_m.empty()) {
    return "";
  }
  const SiteSeason& season = *site.season;
  const auto most = [](const std::vector<double>& values) {
    return *std::max_element(values.begin(), values.end());
  };
  const double weight_top = axis_top(most(season.biomass_g_per_m));
  const double nitrogen_top = axis_top(100.0 * most(season.tissue_n));
  const std::string svg = element(
      fmt::format("svg class=\"season-chart\" viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\"",
                  kWidth, kHeight, label("chart.season_weight_tissue_nitrogen_harvests")),
      axes(weight_top, nitrogen_top) + weight_curve(season, weight_top) +
          nitrogen_curve(season, nitrogen_top) + harvest_marks(season) + month_strip(season));
  return element("figure class=\"season\"",
                 element("h4", label("chart.the_season_day_by_day")) + svg +
                     element("figcaption", caption(season, plan, weight_top)));
}

}  // namespace tidelot::page
