// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "report/maps/coded_map.hpp"
#include "tidelot/report/report.hpp"

/// All maps of the page at one sampling, with their pictures: the part of the page that takes time
/// and bytes.
namespace tidelot::page {

struct PageMaps {
  Sampling sampling;
  std::vector<CodedMap> shown;            ///< those that buttons choose
  std::vector<CodedMap> read_out;         ///< those whose values are told besides
  std::string still;                      ///< the first one painted, as a data URL
  std::vector<std::string> shown_png;     ///< the codes of each, packed
  std::vector<std::string> read_out_png;  ///< likewise
};

/// The maps sampled so. zoom: pixels a sample of the still picture.
[[nodiscard]] PageMaps page_maps(const ReportData& data, Sampling sampling, int zoom,
                                 MapWriter& pictures, const EachOf& each);

/// Bytes of all pictures.
[[nodiscard]] std::size_t bytes_of(const PageMaps& maps);

/// Bands of the sampling's rows, one row in kThinned: their pictures take about that part of the
/// bytes of all.
inline constexpr int kThinned = 8;
inline constexpr int kBand = 32;  ///< rows; they are packed as differences to those above them
[[nodiscard]] Sampling thinned(const Sampling& sampling);

}  // namespace tidelot::page
