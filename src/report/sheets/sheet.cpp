// SPDX-License-Identifier: Apache-2.0
#include "report/sheets/sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "report/sheets/hatches.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

// Of the list of sources.
constexpr std::size_t kMostLetters = 32;  ///< of a name
constexpr std::size_t kMostNames = 6;     ///< of one file

bool blank(std::string_view plain) {
  return plain.find_first_not_of(" \t") == std::string_view::npos;
}

/// A name that says that nothing is known.
bool says_nothing(std::string_view datum) {
  const std::string word = lower_ascii(datum);
  return blank(word) || word == "unknown" || word == "not known" || word == "none" || word == "?";
}

bool has(std::string_view drawings, std::string_view mark) {
  return drawings.find(mark) != std::string_view::npos;
}

/// Of an absolute path the last part: a sheet tells nothing of the machine it was made on.
std::string shown_file(const std::string& written) {
  const std::filesystem::path path = written;
  return path.is_absolute() ? path.filename().string() : written;
}

/// What a layer is called on the sheets.
std::string layer_words(const LayerReport& layer, const ReportData& data) {
  const auto rule = [&](std::string_view table, const auto& rules) -> std::string {
    for (std::size_t i = 0; i < rules.size(); ++i) {
      if (layer.key == fmt::format("{}[{}]", table, i)) {
        return rules[i].name;
      }
    }
    return "";
  };
  const std::string name = rule("closed", data.plan->closed) + rule("near", data.plan->near);
  const std::string key = layer.key.starts_with("water.")
                              ? layer.key.substr(std::string_view("water.").size())
                              : layer.key;
  return name.empty() ? key : name;
}

/// "closed.gpkg", with its times where it has some.
std::string file_words(const LayerReport& layer) {
  const std::string file =
      layer.file.empty() ? page::label("paper.the_plan") : shown_file(layer.file);
  return layer.times.empty() ? file : file + " (" + layer.times + ")";
}

/// "mean sea level, low water 1.1 m below it".
std::string datum_words(const DepthSource& source) {
  const double* low = std::get_if<double>(&source.low_water);
  if (low == nullptr) {
    return page::plain_say("paper.low_water_from_a_raster", source.datum);
  }
  if (*low == 0.0) {
    return source.datum;
  }
  return page::plain_say(*low < 0.0 ? "paper.low_water_below" : "paper.low_water_above",
                         source.datum, shortest(std::abs(*low)));
}

}  // namespace

std::string words_of(const Title& title) {
  return title.site.empty()
             ? page::label(title.label)
             : page::plain_say("paper.of_site", page::label(title.label), title.site);
}

std::vector<std::string> lacks(const Sheet& sheet) {
  std::vector<std::string> out;
  const auto need = [&](bool there, std::string_view what) {
    if (!there) {
      out.push_back(page::label(what));
    }
  };
  need(!sheet.title.label.empty(), "paper.a_title");
  need(has(sheet.drawings, "<svg"), "paper.a_drawing");
  need(has(sheet.drawings, "class=\"north\""), "paper.a_north_arrow");
  need(has(sheet.drawings, "class=\"scale-bar\""), "paper.a_scale_bar");
  need(!says_nothing(sheet.horizontal_datum), "paper.a_horizontal_datum");
  need(!says_nothing(sheet.vertical_datum), "paper.a_vertical_datum");
  need(!sheet.sources.empty() && std::none_of(sheet.sources.begin(), sheet.sources.end(), blank),
       "paper.some_sources");
  return out;
}

std::vector<std::string> sources_of(const ReportData& data,
                                    std::span<const std::string_view> layer_keys) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_file;
  for (const LayerReport& layer : data.layers) {
    if (std::none_of(layer_keys.begin(), layer_keys.end(),
                     [&](std::string_view key) { return layer.key.starts_with(key); })) {
      continue;
    }
    const std::string file = file_words(layer);
    const auto same = std::find_if(by_file.begin(), by_file.end(),
                                   [&](const auto& each) { return each.first == file; });
    auto& names = same == by_file.end()
                      ? by_file.emplace_back(file, std::vector<std::string>{}).second
                      : same->second;
    names.push_back(cut(layer_words(layer, data), kMostLetters));
  }
  std::vector<std::string> out;
  for (const auto& [file, names] : by_file) {
    const std::size_t shown = std::min(names.size(), kMostNames);
    const std::string listed = fmt::format(
        "{}", fmt::join(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(shown), ", "));
    out.push_back(file + ": " +
                  (shown < names.size()
                       ? page::plain_say("paper.and_more", listed, names.size() - shown)
                       : listed));
  }
  return out;
}

Sheet sheet_of(Title title, const ReportData& data, std::span<const std::string_view> layer_keys) {
  Sheet out;
  out.title = std::move(title);
  out.horizontal_datum = page::plain_say("paper.positions_and_map", "WGS 84", data.grid_crs_name);
  for (const DepthSource& source : data.plan->depth.sources()) {
    // One name that says nothing spoils the whole: which depth it is could not be told.
    if (says_nothing(source.datum)) {
      out.vertical_datum.clear();
      break;
    }
    out.vertical_datum += (out.vertical_datum.empty() ? "" : "; ") + datum_words(source);
  }
  if (!out.vertical_datum.empty()) {
    out.vertical_datum = page::plain_say("paper.depths_at_low_water", out.vertical_datum);
  }
  out.sources = sources_of(data, layer_keys);
  return out;
}

Sheet no_sheet(Title title, std::string_view why) {
  Sheet out;
  out.title = std::move(title);
  out.why_not = why;
  return out;
}

double set_height(std::string_view markup, double width, double points) {
  constexpr double kMmPerPoint = 25.4 / 72.0;
  constexpr double kLeading = 1.3;  // as in sheets.css
  std::size_t letters = 0;
  bool inside = false;  // a tag, or an entity, which counts as one letter
  for (const char c : markup) {
    letters += !inside && (static_cast<unsigned char>(c) & 0xC0) != 0x80 && c != '<' ? 1 : 0;
    inside = c == '<' || c == '&' ? true : c == '>' || c == ';' ? false : inside;
  }
  const double long_mm = width_of(std::string(letters, 'x'), points * kMmPerPoint);
  // Words do not fill their lines.
  return std::max(1.0, std::ceil(1.03 * long_mm / width)) * points * kMmPerPoint * kLeading;
}

std::string cut(const std::string& plain, std::size_t letters) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < plain.size(); ++i) {
    const bool begins = (static_cast<unsigned char>(plain[i]) & 0xC0) != 0x80;
    if (begins && ++count > letters) {
      return plain.substr(0, i) + "…";
    }
  }
  return plain;
}

std::string legend_row(std::string_view swatch, std::string_view markup) {
  return fmt::format("<li>{}<span>{}</span></li>", swatch, markup);
}

std::string swatch(std::string_view fill, Pen pen) {
  return "<svg class=\"swatch\" width=\"11mm\" height=\"5.5mm\" viewBox=\"0 0 11 5.5\" "
         "aria-hidden=\"true\">" +
         box({0.3, 0.3}, 10.4, 4.9, pen, fill) + "</svg>";
}

std::string line_swatch(Pen pen) {
  return "<svg class=\"swatch\" width=\"11mm\" height=\"3mm\" viewBox=\"0 0 11 3\" "
         "aria-hidden=\"true\">" +
         stroke({0.0, 1.5}, {11.0, 1.5}, pen) + "</svg>";
}

std::string ground_legend() {
  return legend_row(swatch(kLand, {0.45, ""}), page::say("paper.land_and_its_edge")) +
         legend_row(swatch(kUnknown, {0.2, "1 .6"}), page::say("paper.depth_not_known"));
}

std::string legend(std::string_view rows, std::string_view kind) {
  return fmt::format("<ul class=\"legend{}{}\">{}</ul>", kind.empty() ? "" : " ", kind, rows);
}

std::string table(const page::Table& table) {
  std::string head;
  for (const page::Column& column : table.columns) {
    head += column.title.empty()
                ? page::element("td", "")
                : page::element(column.number ? "th scope=\"col\" class=\"n\"" : "th scope=\"col\"",
                                page::text(column.title));
  }
  std::string rows;
  for (const std::vector<std::string>& row : table.rows) {
    std::string cells;
    for (std::size_t i = 0; i < row.size(); ++i) {
      cells += page::element(table.columns[i].number ? "td class=\"n\"" : "td", row[i]);
    }
    rows += page::element("tr", cells);
  }
  const std::string open =
      table.kind.empty() ? "table" : fmt::format("table class=\"{}\"", table.kind);
  return page::element(open, page::element("caption", page::text(table.caption)) +
                                 page::element("thead", page::element("tr", head)) +
                                 page::element("tbody", rows));
}

std::vector<const Site*> chosen_sites(const ReportData& data) {
  std::vector<const Site*> out;
  for (const Site& site : data.sites->ranked) {
    const bool best = static_cast<int>(out.size()) < data.plan->report.sheet_sites;
    if (best || site.own > 0) {
      out.push_back(&site);
    }
  }
  return out;
}

}  // namespace tidelot::sheet
