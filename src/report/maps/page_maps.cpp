// SPDX-License-Identifier: Apache-2.0
#include "report/maps/page_maps.hpp"

#include <numeric>
#include <utility>

#include "report/maps/picture.hpp"

namespace tidelot::page {
namespace {

std::size_t bytes_of(const std::vector<std::string>& all) {
  return std::accumulate(all.begin(), all.end(), std::size_t{0},
                         [](std::size_t sum, const std::string& one) { return sum + one.size(); });
}

/// Packs the codes of every map and paints the first one, which takes longest and is begun first.
void add_pictures(PageMaps& maps, int zoom, MapWriter& pictures, const EachOf& each) {
  const std::size_t shown = maps.shown.size();
  maps.shown_png.resize(shown);
  maps.read_out_png.resize(maps.read_out.size());
  each(1 + shown + maps.read_out.size(), [&](std::size_t task) {
    if (task == 0) {
      maps.still = picture_url(maps.shown.front(), maps.sampling, zoom, pictures);
    } else if (task <= shown) {
      maps.shown_png[task - 1] = packed(maps.shown[task - 1], maps.sampling, pictures);
    } else {
      const std::size_t i = task - 1 - shown;
      maps.read_out_png[i] = packed(maps.read_out[i], maps.sampling, pictures);
    }
  });
}

}  // namespace

PageMaps page_maps(const ReportData& data, Sampling sampling, int zoom, MapWriter& pictures,
                   const EachOf& each) {
  PageMaps maps;
  maps.sampling = std::move(sampling);
  maps.shown = shown_maps(data, maps.sampling, each);
  maps.read_out = read_out_maps(data, maps.sampling, each);
  add_pictures(maps, zoom, pictures, each);
  return maps;
}

std::size_t bytes_of(const PageMaps& maps) {
  return maps.still.size() + bytes_of(maps.shown_png) + bytes_of(maps.read_out_png);
}

Sampling thinned(const Sampling& sampling) {
  Sampling thin;
  thin.cols = sampling.cols;
  thin.col = sampling.col;
  for (int row = 0; row < sampling.rows; ++row) {
    if (row / kBand % kThinned == kThinned / 2) {
      thin.row_begin.push_back(sampling.row_begin[static_cast<std::size_t>(row)]);
      ++thin.rows;
    }
  }
  return thin;
}

}  // namespace tidelot::page
