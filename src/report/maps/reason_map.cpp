// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <map>
#include <numeric>

#include "report/maps/coded_map.hpp"
#include "report/words/say.hpp"
#include "tidelot/criteria/closed_mask.hpp"
#include "tidelot/criteria/reason_codes.hpp"

namespace tidelot::page {
namespace {

constexpr std::size_t kClasses = 7;
constexpr std::size_t kMostSets = 255;  ///< the code after the last: more sets than codes

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

/// Codes of water that was scored or closed, the most frequent first. counts: cells, index = code.
std::vector<std::uint8_t> codes_by_count(std::span<const std::size_t> counts) {
  std::vector<std::uint8_t> present;
  for (std::size_t each = reason::kNothing; each < counts.size(); ++each) {
    if (counts[each] > 0 && !reason::says_unknown(each)) {
      present.push_back(static_cast<std::uint8_t>(each));
    }
  }
  std::stable_sort(present.begin(), present.end(),
                   [&](std::uint8_t a, std::uint8_t b) { return counts[a] > counts[b]; });
  return present;
}

std::string words_of(const ReportData& data, std::uint8_t each) {
  return each < data.reason_names.size() ? translated(data.reason_names[each]) : "";
}

}  // namespace

ReasonLooks reason_looks(const ReportData& data) {
  ReasonLooks looks;
  looks.styles.fill(not_known_style());
  looks.styles[reason::kOutside].clear = true;
  looks.styles[reason::kLand] = land_style();
  looks.present = codes_by_count(data.counts.by_reason);
  const auto classes = class_styles();
  for (std::size_t i = 0; i < looks.present.size(); ++i) {
    looks.styles[looks.present[i]] = classes[std::min(i, kClasses)];
  }
  return looks;
}

CodedMap reason_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map;
  map.key = "reason";
  map.button = label("map.reason");
  map.about = label("map.reason_about");
  map.classes = true;
  map.codes.resize(sampling.size());
  sampling.each(
      [&](std::size_t sample, std::size_t cell) { map.codes[sample] = data.maps.reason[cell]; });
  const ReasonLooks looks = reason_looks(data);
  map.styles = looks.styles;
  for (std::size_t i = 0; i < std::min(looks.present.size(), kClasses); ++i) {
    const std::uint8_t each = looks.present[i];
    map.entries.push_back({words_of(data, each), looks.styles[each]});
  }
  if (looks.present.size() > kClasses) {
    map.entries.push_back({label("map.other_reasons"), looks.styles[looks.present.back()]});
  }
  map.entries.push_back({label("map.not_known"), not_known_style()});
  map.entries.push_back({label("map.land"), land_style()});
  return map;
}

CodedMap closed_map(const ReportData& data, const Sampling& sampling) {
  CodedMap map;
  map.key = "closed";
  std::map<std::uint32_t, std::uint8_t> codes{{0, 0}};
  map.sets.push_back(0);
  map.codes.reserve(sampling.size());
  sampling.each([&](std::size_t, std::size_t cell) {
    const std::uint32_t each = data.maps.closed[cell];
    const std::uint32_t bits = each == kClosedNotWater || each == kClosedUnknown ? 0 : each;
    const auto known = codes.find(bits);
    if (known != codes.end()) {
      map.codes.push_back(known->second);
    } else if (map.sets.size() < kMostSets) {
      map.codes.push_back(codes.emplace(bits, map.sets.size()).first->second);
      map.sets.push_back(bits);
    } else {
      map.codes.push_back(kMostSets);
    }
  });
  return map;
}

}  // namespace tidelot::page
