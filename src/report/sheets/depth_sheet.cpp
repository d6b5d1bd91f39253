// SPDX-License-Identifier: Apache-2.0
// Sheet: depth at low water as contours.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "report/sheets/contours.hpp"
#include "report/sheets/ground.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::array<std::string_view, 2> kLayers{"depth", "land"};
constexpr int kMostLines = 9;
constexpr double kTolerance = 0.12;  ///< mm

/// Depths where samples are taken; land counts as 0, so that lines end at the shore.
std::vector<float> sampled(const Samples& samples, const ReportData& data) {
  std::vector<float> out;
  out.reserve(samples.cells.size());
  samples.each([&](std::size_t cell) {
    out.push_back(cell == Samples::kNone ? std::nanf("") : data.maps.depth_low_water[cell]);
  });
  return out;
}

/// The mean of a sample and its eight neighbours, where all are known: print is finer than charts.
std::vector<float> smoothed(int cols, int rows, const std::vector<float>& values) {
  std::vector<float> out(values);
  const auto at = [&](int col, int row) {
    return values[static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
                  static_cast<std::size_t>(col)];
  };
  for (int row = 1; row + 1 < rows; ++row) {
    for (int col = 1; col + 1 < cols; ++col) {
      float sum = 0.0F;
      for (int k = 0; k < 9; ++k) {
        sum += at(col + k % 3 - 1, row + k / 3 - 1);
      }
      if (!std::isnan(sum)) {
        out[static_cast<std::size_t>(row) * static_cast<std::size_t>(cols) +
            static_cast<std::size_t>(col)] = sum / 9.0F;
      }
    }
  }
  return out;
}

struct Drawn {
  std::string lines;
  std::string names;
};

void draw_level(const Samples& samples, const std::vector<float>& values, double level, bool heavy,
                Labels& labels, Drawn& drawn) {
  std::string d;
  for (const Isoline& line : isolines(samples.cols, samples.rows, values, level)) {
    const Isoline kept = thinned(line, kTolerance / samples.side_mm);
    std::vector<Spot> spots;
    double length = 0.0;
    for (const XY& p : kept) {
      const Spot at{samples.first.x + (p.x + 0.5) * samples.side_mm,
                    samples.first.y + (p.y + 0.5) * samples.side_mm};
      length += spots.empty() ? 0.0 : std::hypot(at.x - spots.back().x, at.y - spots.back().y);
      spots.push_back(at);
    }
    if (length < 3.0) {
      continue;  // a speck of noise
    }
    d += way(spots);
    if (length > 18.0) {
      drawn.names += labels.on(spots[spots.size() / 2], shortest(level), 2.5);
    }
  }
  drawn.lines += d.empty() ? "" : path(d, {heavy ? 0.4 : 0.2, ""});
}

std::string feet(const std::vector<double>& levels) {
  std::string all;
  for (const double level : levels) {
    all += fmt::format("{}{} = {}", all.empty() ? "" : ", ",
                       page::plain_say("words.unit_m", shortest(level)), page::length(level).us);
  }
  return all;
}

std::string survey(const ReportData& data) {
  std::string all;
  for (const LayerReport& layer : data.layers) {
    if (layer.key.starts_with("depth") && !layer.times.empty()) {
      all += (all.empty() ? "" : "; ") + layer.file + " " + layer.times;
    }
  }
  return all.empty() ? page::say("contours.no_survey_date", room())
                     : page::say("contours.survey_date", page::text(all));
}

}  // namespace

Sheet depth(const ReportData& data) {
  const Title title{"contours.title"};
  const Frame frame = frame_of(extent_of(*data.grid), data.grid_scale, kBodyWidth - 1.0, 140.0);
  const Samples samples = samples_of(frame, *data.grid);
  const std::vector<float> values = smoothed(samples.cols, samples.rows, sampled(samples, data));
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const float value : values) {
    if (!std::isnan(value)) {
      low = std::min<double>(low, value);
      high = std::max<double>(high, value);
    }
  }
  if (low > high) {
    return no_sheet(title, "contours.no_depth");
  }
  Sheet out = sheet_of(title, data, kLayers);
  Labels labels(frame.width, frame.height);
  labels.keep({0.0, 0.0}, frame.width, 3.5);
  labels.keep({0.0, 0.0}, 12.0, frame.height);
  const std::string sites = site_marks(frame, data, labels);
  const double step = contour_step(low, high, kMostLines);
  Drawn drawn;
  std::vector<double> levels;
  for (double level = std::ceil(low / step) * step; level <= high; level += step) {
    if (level > 0.0) {
      const bool heavy = static_cast<long>(std::lround(level / step)) % 5 == 0;
      draw_level(samples, values, level, heavy, labels, drawn);
      levels.push_back(level);
    }
  }
  out.drawings = map_drawing(frame, data, "depth", page::label("contours.map"),
                             drawn.lines + land_and_unknown(frame, data), sites + drawn.names);
  out.beside = frame.width < kNarrow;
  out.notes =
      legend(
          legend_row(line_swatch({0.2, ""}),
                     page::say("contours.every", page::plain_say("words.unit_m", shortest(step)))) +
          legend_row(line_swatch({0.4, ""}), page::say("contours.every_fifth")) + ground_legend()) +
      page::element("p", page::text(feet(levels)) + ".") + page::element("p", survey(data)) +
      page::element("p", page::text(page::plain_say(
                             "contours.tidal_range",
                             page::in_line(page::length(data.plan->depth.tidal_range_m),
                                           data.plan->report.units)))) +
      page::element("p", page::say("contours.samples"));
  return out;
}

}  // namespace tidelot::sheet
