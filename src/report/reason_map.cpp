// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <numeric>

#include "report/coded_map.hpp"
#include "tidelot/criteria/reason.hpp"

namespace tidelot::page {
namespace {

constexpr std::size_t kClasses = 7;

/// Looks of the classes, the most frequent first. Neighbours in the list differ in lightness and in
/// texture, so that they are told apart in black and white.
std::array<Style, kClasses + 1> class_styles() {
  constexpr std::array<double, kClasses> kPlaces{0.97, 0.12, 0.68, 0.30, 0.82, 0.46, 0.04};
  constexpr std::array<int, kClasses> kTextures{0, 2, 3, 0, 6, 4, 7};
  std::array<Style, kClasses + 1> styles{};
  for (std::size_t i = 0; i < kClasses; ++i) {
    const Rgb base = colour_at(batlow(), kPlaces[i]);
    styles[i] = {base, kTextures[i], kPlaces[i] < 0.5 ? Rgb{214, 222, 232} : Rgb{70, 44, 30}};
  }
  styles[kClasses] = {{150, 150, 150}, 5, kInk};
  return styles;
}

/// Codes of water that was scored or closed, the most frequent first.
std::vector<std::uint8_t> codes_by_count(std::span<const std::uint8_t> codes) {
  std::array<std::size_t, 256> counts{};
  for (const std::uint8_t each : codes) {
    ++counts[each];
  }
  std::vector<std::uint8_t> present;
  for (std::size_t each = reason::kNothing; each < counts.size(); ++each) {
    if (counts[each] > 0) {
      present.push_back(static_cast<std::uint8_t>(each));
    }
  }
  std::stable_sort(present.begin(), present.end(),
                   [&](std::uint8_t a, std::uint8_t b) { return counts[a] > counts[b]; });
  return present;
}

std::string label(const ReportData& data, std::uint8_t each) {
  return each < data.reason_names.size() ? data.reason_names[each] : "";
}

}  // namespace

CodedMap reason_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map;
  map.key = "reason";
  map.button = "What holds it back";
  map.about = "Why water is closed or, where it is open, what holds it back most.";
  map.classes = true;
  for (const std::size_t cell : sampling.cells) {
    map.codes.push_back(data.maps.reason[cell]);
  }
  map.styles.fill(not_known_style());
  map.styles[reason::kOutside].clear = true;
  map.styles[reason::kLand] = land_style();
  const auto looks = class_styles();
  const std::vector<std::uint8_t> present = codes_by_count(map.codes);
  for (std::size_t i = 0; i < present.size(); ++i) {
    map.styles[present[i]] = looks[std::min(i, kClasses)];
    if (i < kClasses) {
      map.entries.push_back({label(data, present[i]), looks[i]});
    }
  }
  if (present.size() > kClasses) {
    map.entries.push_back({"other reasons: point at the map", looks[kClasses]});
  }
  map.entries.push_back({"not known: no data", not_known_style()});
  map.entries.push_back({"land", land_style()});
  return map;
}

}  // namespace tidelot::page
