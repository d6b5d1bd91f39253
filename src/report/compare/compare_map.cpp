// SPDX-License-Identifier: Apache-2.0
// The bays' maps side by side: one scale, one range of colours.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "report/compare/compare_parts.hpp"
#include "report/compare/compare_words.hpp"
#include "report/maps/colour.hpp"
#include "report/maps/picture.hpp"
#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr int kKeySteps = 120;
constexpr double kBarPx = 60.0;  ///< about the length of the scale bar
constexpr int kBelow = 16;       ///< px beneath the map, for it
constexpr Rgb kHatch{120, 124, 128};

/// The colour of a sample; what has no value is told by its texture, so that it is read without
/// colour.
Rgb colour_of(float value, double low, double high, int col, int row) {
  if (value == BayPicture::kLand) {
    return kLand;
  }
  if (value == BayPicture::kClosed) {
    return (col + row) % 5 == 0 ? kHatch : kClosed;
  }
  if (value == BayPicture::kUnknown) {
    return (col % 4 == 0) != (row % 4 == 0) ? kInk : kPaper;
  }
  return value == BayPicture::kOutside
             ? kPaper
             : colour_at(batlow(), high > low ? (value - low) / (high - low) : 0.5);
}

bool is_value(float value) { return value > BayPicture::kLand; }

std::pair<double, double> range_of(const Comparison& all) {
  double low = 0.0, high = 0.0;
  for (const ComparedBay& one : all.bays) {
    for (const float value : one.picture ? one.picture->values : std::vector<float>()) {
      if (is_value(value)) {
        high = std::max(high, static_cast<double>(value));
      }
    }
  }
  return {low, high};
}

std::string png_url(int cols, int rows, const std::vector<Rgb>& pixels, MapWriter& pictures) {
  std::vector<std::uint8_t> rgba;
  rgba.reserve(pixels.size() * 4);
  for (const Rgb& p : pixels) {
    rgba.insert(rgba.end(), {p.r, p.g, p.b, 255});
  }
  return "data:image/png;base64," + base64(pictures.png(cols, rows, rgba));
}

std::string picture_of(const BayPicture& map, std::pair<double, double> range,
                       MapWriter& pictures) {
  std::vector<Rgb> pixels;
  pixels.reserve(map.values.size());
  for (int row = 0; row < map.rows; ++row) {
    for (int col = 0; col < map.cols; ++col) {
      pixels.push_back(colour_of(map.values[static_cast<std::size_t>(row * map.cols + col)],
                                 range.first, range.second, col, row));
    }
  }
  return png_url(map.cols, map.rows, pixels, pictures);
}

std::string site_outlines(const BayPicture& map) {
  std::string out;
  for (const std::vector<XY>& corners : map.sites) {
    std::string points;
    for (const XY corner : corners) {
      points += fmt::format("{:.1f},{:.1f} ", corner.x, corner.y);
    }
    out += fmt::format(
        "<polygon points=\"{0}\" fill=\"none\" stroke=\"#fff\" stroke-width=\"4\"/>"
        "<polygon points=\"{0}\" fill=\"none\" stroke=\"#1d242b\" stroke-width=\"2\"/>",
        points);
  }
  return out;
}

/// A round length near to some samples, m.
double round_length(double m) {
  const double ten = std::pow(10.0, std::floor(std::log10(m)));
  return ten * (m >= 5.0 * ten ? 5.0 : m >= 2.0 * ten ? 2.0 : 1.0);
}

/// Beneath the map, so that it hides nothing.
std::string scale_bar(const BayPicture& map, Units units) {
  const double m = round_length(kBarPx * map.sample_m);
  const Measure words = distance(m);
  return fmt::format(
      "<path d=\"M4 {0}v4h{1:.1f}v-4\" fill=\"none\" stroke=\"#1d242b\" stroke-width=\"2\"/>"
      "<text x=\"{2:.1f}\" y=\"{3}\" font-size=\"10\" fill=\"#1d242b\">{4}</text>",
      map.rows + 5, m / map.sample_m, m / map.sample_m + 9.0, map.rows + 12,
      text(units == Units::us ? words.us : words.metric));
}

std::string figure_of(const ComparedBay& one, std::pair<double, double> range, Units units,
                      MapWriter& pictures) {
  const BayPicture& map = *one.picture;
  const std::string words = plain_say("compare.map_of", one.name);
  const std::string svg = fmt::format(
      "<svg role=\"img\" aria-label=\"{3}\" width=\"{0}\" height=\"{7}\" viewBox=\"0 0 {0} {7}\">"
      "<image href=\"{2}\" width=\"{0}\" height=\"{1}\"/>{4}{5}"
      "<g transform=\"translate({6} 14)\"><path d=\"M0-9 5 6 0 3-5 6Z\" fill=\"#1d242b\" "
      "stroke=\"#fff\"/><text y=\"17\" font-size=\"10\" text-anchor=\"middle\" fill=\"#1d242b\">{8}"
      "</text></g></svg>",
      map.cols, map.rows, picture_of(map, range, pictures), text(words), site_outlines(map),
      scale_bar(map, units), map.cols - 12, map.rows + kBelow, say("compare.north"));
  return element("figure", svg + element("figcaption", text(one.name)));
}

std::string swatch(float value, MapWriter& pictures, std::string_view words) {
  std::vector<Rgb> pixels;
  for (int row = 0; row < 14; ++row) {
    for (int col = 0; col < 24; ++col) {
      pixels.push_back(colour_of(value, 0.0, 1.0, col, row));
    }
  }
  return element("span", fmt::format("<img alt=\"\" width=\"24\" height=\"14\" src=\"{}\">{}",
                                     png_url(24, 14, pixels, pictures), text(words)));
}

std::string key_of(std::pair<double, double> range, Units units, MapWriter& pictures) {
  std::vector<Rgb> pixels;
  for (int row = 0; row < 12; ++row) {
    for (int col = 0; col < kKeySteps; ++col) {
      pixels.push_back(colour_at(batlow(), static_cast<double>(col) / (kKeySteps - 1)));
    }
  }
  const std::string ramp = element(
      "span",
      fmt::format("{}<img alt=\"{}\" width=\"{}\" height=\"12\" src=\"{}\">{}",
                  text(in_line(nitrogen_per_m(range.first), units)), say("compare.ramp"), kKeySteps,
                  png_url(kKeySteps, 12, pixels, pictures),
                  say("compare.ramp_unit", text(in_line(nitrogen_per_m(range.second), units)))));
  return element("div class=\"key\"",
                 ramp + swatch(BayPicture::kClosed, pictures, label("compare.closed")) +
                     swatch(BayPicture::kUnknown, pictures, label("compare.not_known")) +
                     swatch(BayPicture::kLand, pictures, label("compare.land")) +
                     element("span",
                             "<svg width=\"24\" height=\"14\"><path d=\"M3 3h18v8h-18Z\" "
                             "fill=\"none\" stroke=\"#1d242b\" stroke-width=\"2\"/></svg>" +
                                 say("compare.ranked_site")));
}

}  // namespace

std::string compare_maps(const Comparison& all, MapWriter& pictures) {
  std::string figures;
  const auto range = range_of(all);
  for (const ComparedBay& one : all.bays) {
    if (one.picture) {
      figures += figure_of(one, range, all.units, pictures);
    }
  }
  if (figures.empty()) {
    return "";
  }
  return element("section", element("h2", say("compare.maps")) +
                                element("div class=\"maps\"", figures) +
                                key_of(range, all.units, pictures));
}

}  // namespace tidelot::page
