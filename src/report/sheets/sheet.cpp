// SPDX-License-Identifier: Apache-2.0
#include "report/sheets/sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "report/sheets/hatches.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::sheet {
namespace {

constexpr std::size_t kMostLetters = 32;  ///< of a name in the list of sources

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
  const std::string file = layer.file.empty() ? "the plan" : shown_file(layer.file);
  return layer.times.empty() ? file : file + " (" + layer.times + ")";
}

}  // namespace

std::vector<std::string> lacks(const Sheet& sheet) {
  std::vector<std::string> out;
  const auto need = [&](bool there, std::string_view what) {
    if (!there) {
      out.emplace_back(what);
    }
  };
  need(!blank(sheet.title), "a title");
  need(has(sheet.drawings, "<svg"), "a drawing");
  need(has(sheet.drawings, "class=\"north\""), "a north arrow");
  need(has(sheet.drawings, "class=\"scale-bar\""), "a scale bar");
  need(!says_nothing(sheet.horizontal_datum), "a horizontal datum");
  need(!says_nothing(sheet.vertical_datum), "a vertical datum");
  need(!sheet.sources.empty() && std::none_of(sheet.sources.begin(), sheet.sources.end(), blank),
       "sources");
  return out;
}

std::vector<std::string> sources_of(const ReportData& data,
                                    std::span<const std::string_view> layer_keys) {
  std::vector<std::pair<std::string, std::string>> by_file;
  for (const LayerReport& layer : data.layers) {
    if (std::none_of(layer_keys.begin(), layer_keys.end(),
                     [&](std::string_view key) { return layer.key.starts_with(key); })) {
      continue;
    }
    const std::string file = file_words(layer);
    const auto same = std::find_if(by_file.begin(), by_file.end(),
                                   [&](const auto& each) { return each.first == file; });
    if (same == by_file.end()) {
      by_file.emplace_back(file, cut(layer_words(layer, data), kMostLetters));
    } else {
      same->second += ", " + cut(layer_words(layer, data), kMostLetters);
    }
  }
  std::vector<std::string> out;
  for (const auto& [file, what] : by_file) {
    out.push_back(file + ": " + what);
  }
  return out;
}

Sheet sheet_of(std::string title, const ReportData& data,
               std::span<const std::string_view> layer_keys) {
  Sheet out;
  out.title = std::move(title);
  out.horizontal_datum = fmt::format("positions WGS 84; map {}", data.grid_crs_name);
  for (const DepthSource& source : data.plan->depth.sources()) {
    const double* low = std::get_if<double>(&source.low_water);
    const std::string offset = low == nullptr ? ", low water from a raster"
                               : *low == 0.0
                                   ? ""
                                   : fmt::format(", low water {} m {} it", shortest(std::abs(*low)),
                                                 *low < 0.0 ? "below" : "above");
    // One name that says nothing spoils the whole: which depth it is could not be told.
    if (says_nothing(source.datum)) {
      out.vertical_datum.clear();
      break;
    }
    out.vertical_datum +=
        (out.vertical_datum.empty() ? "depths at low water; zero of the layer: " : "; ") +
        source.datum + offset;
  }
  out.sources = sources_of(data, layer_keys);
  return out;
}

Sheet no_sheet(std::string title, std::string why) {
  Sheet out;
  out.title = std::move(title);
  out.why_not = std::move(why);
  return out;
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

std::string room(bool wide) {
  return wide ? "<span class=\"line long\">&nbsp;</span>" : "<span class=\"line\">&nbsp;</span>";
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
  return legend_row(swatch(kLand, {0.45, ""}),
                    "land; its edge is the low-water line of the depth layer") +
         legend_row(swatch(kUnknown, {0.2, "1 .6"}), "depth not known: no data");
}

std::string legend(std::string_view rows) {
  return fmt::format("<ul class=\"legend\">{}</ul>", rows);
}

std::string table(const page::Table& table) {
  std::string head;
  for (const page::Column& column : table.columns) {
    head += page::element(column.number ? "th scope=\"col\" class=\"n\"" : "th scope=\"col\"",
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
