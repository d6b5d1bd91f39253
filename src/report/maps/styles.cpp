// SPDX-License-Identifier: Apache-2.0
#include "tidelot/report/styles.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "report/maps/map_look.hpp"
#include "report/tables/xml_text.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/text.hpp"

// Styled Layer Descriptor 1.0.0 (OGC 02-070). Its colour map names the colour of a value; readers
// join the colours between two values linearly, so one form serves quantities and codes.
namespace tidelot {
namespace {

using page::LookStep;
using page::MapLook;

std::string document(const std::string& layers) {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
         "<StyledLayerDescriptor version=\"1.0.0\" xmlns=\"http://www.opengis.net/sld\" "
         "xmlns:ogc=\"http://www.opengis.net/ogc\">\n" +
         layers + "</StyledLayerDescriptor>\n";
}

std::string layer(const std::string& name, const std::string& title, const std::string& about,
                  const std::string& symbols) {
  return fmt::format(
      "<NamedLayer><Name>{}</Name><UserStyle><Title>{}</Title><Abstract>{}</Abstract>"
      "<FeatureTypeStyle><Rule>\n{}</Rule></FeatureTypeStyle></UserStyle></NamedLayer>\n",
      name, xml_text(title), xml_text(about), symbols);
}

std::string entry(const LookStep& step) {
  return fmt::format("<ColorMapEntry color=\"{}\" quantity=\"{}\" label=\"{}\" opacity=\"{}\"/>\n",
                     page::hex(step.colour), shortest(step.value), xml_text(step.words),
                     step.clear ? 0 : 1);
}

std::string raster(const MapLook& look) {
  std::string entries;
  for (const LookStep& step : look.steps) {
    entries += entry(step);
  }
  return document(layer(look.map, look.title, look.about,
                        "<RasterSymbolizer><ChannelSelection><GrayChannel><SourceChannelName>1"
                        "</SourceChannelName></GrayChannel></ChannelSelection>\n<ColorMap>\n" +
                            entries + "</ColorMap></RasterSymbolizer>\n"));
}

std::string css(const std::string& name, const std::string& value) {
  return fmt::format("<CssParameter name=\"{}\">{}</CssParameter>", name, value);
}

std::string stroke(const std::string& width, const std::string& dashes = "") {
  return "<Stroke>" + css("stroke", page::hex(page::kInk)) + css("stroke-width", width) +
         (dashes.empty() ? "" : css("stroke-dasharray", dashes)) + "</Stroke>";
}

std::string polygon(const std::string& line) {
  return "<PolygonSymbolizer>" + line + "</PolygonSymbolizer>\n";
}

std::string mark(const std::string& shape, const std::string& size) {
  return fmt::format(
      "<PointSymbolizer><Graphic><Mark><WellKnownName>{}</WellKnownName><Fill>{}</Fill>{}</Mark>"
      "<Size>{}</Size></Graphic></PointSymbolizer>\n",
      shape, css("fill", page::hex(page::kPaper)), stroke("1.5"), size);
}

/// The site's name, dark on a light rim, so that it reads on any map.
std::string named() {
  return fmt::format(
      "<TextSymbolizer><Label><ogc:PropertyName>name</ogc:PropertyName></Label><Font>{}{}</Font>"
      "<Halo><Radius>2</Radius><Fill>{}</Fill></Halo><Fill>{}</Fill></TextSymbolizer>\n",
      css("font-size", "14"), css("font-weight", "bold"), css("fill", page::hex(page::kPaper)),
      css("fill", page::hex(page::kInk)));
}

/// The layers of sites.gpkg; that of sites.geojson is `sites`, too. Told apart by form, not colour.
std::string sites_style() {
  const auto about = [](const char* what) { return page::label(std::string("style.") + what); };
  return document(
      layer("sites", about("sites"), about("sites_about"), polygon(stroke("2.5")) + named()) +
      layer("gear_box", about("gear_box"), about("gear_box_about"), polygon(stroke("1", "6 3"))) +
      layer("lines", about("lines"), about("lines_about"),
            "<LineSymbolizer>" + stroke("1") + "</LineSymbolizer>\n") +
      layer("anchors", about("anchors"), about("anchors_about"), mark("x", "8")) +
      layer("markers", about("markers"), about("markers_about"), mark("circle", "9")));
}

/// The colours of a map whose codes fit into a table of 256; else none.
std::vector<MapColour> colours_of(const MapLook& look) {
  constexpr double kMostCodes = 256.0;
  if (!look.codes || look.steps.back().value >= kMostCodes) {
    return {};
  }
  std::vector<MapColour> colours(static_cast<std::size_t>(look.steps.back().value) + 1);
  for (const LookStep& step : look.steps) {
    colours[static_cast<std::size_t>(step.value)] = {step.colour.r, step.colour.g, step.colour.b};
  }
  return colours;
}

}  // namespace

std::vector<StyleFile> style_files(const ReportData& data) {
  const page::Speaking speaking(*data.plan->report.labels);
  std::vector<StyleFile> files;
  for (const MapLook& look : page::map_looks(data)) {
    files.push_back({fmt::format("maps/{}.sld", look.map), raster(look), colours_of(look)});
  }
  files.push_back({"sites.sld", sites_style(), {}});
  return files;
}

const StyleFile& style_of(const std::vector<StyleFile>& styles, std::string_view map) {
  const std::string name = fmt::format("maps/{}.sld", map.substr(0, map.rfind('.')));
  const auto found = std::find_if(styles.begin(), styles.end(),
                                  [&](const StyleFile& each) { return each.name == name; });
  if (found == styles.end()) {
    throw std::invalid_argument("no style for " + std::string(map));  // a fault of the code
  }
  return *found;
}

}  // namespace tidelot
