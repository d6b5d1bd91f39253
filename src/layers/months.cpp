// SPDX-License-Identifier: Apache-2.0
#include "months.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "tidelot/core/error.hpp"

namespace tidelot {
namespace {

constexpr std::string_view kMark = "{month}";

std::string with_month(std::string text, int month) {
  const std::string digits = fmt::format("{:02}", month);
  for (auto at = text.find(kMark); at != std::string::npos; at = text.find(kMark)) {
    text.replace(at, kMark.size(), digits);
  }
  return text;
}

std::string with_times(const RasterInfo& info) {
  return info.times.empty() ? "" : fmt::format(" ({})", info.times);
}

}  // namespace

MonthBands months_of(const RasterInfo& info, const std::string& key, const std::string& written) {
  MonthBands months;
  if (info.bands == 1) {
    months.steady = true;
    return months;
  }
  if (info.bands != kMonths) {
    throw Error(Fault::input,
                fmt::format("{}: {}: has {} bands{}; twelve are needed, one a month (average them "
                            "by month first), or one for the whole year",
                            key, written, info.bands, with_times(info)));
  }
  months.band.fill(-1);
  for (int band = 0; band < kMonths; ++band) {
    const auto b = static_cast<std::size_t>(band);
    const int month = info.month_of_band.empty() ? band : info.month_of_band[b];
    int& place = months.band[static_cast<std::size_t>(month)];
    if (place >= 0) {
      throw Error(Fault::input,
                  fmt::format("{}: {}: has twelve bands{} but two of them in {}; one a month is "
                              "needed",
                              key, written, with_times(info), month_name(month)));
    }
    place = band;
  }
  return months;
}

std::vector<FileRef> month_files(const FileRef& file) {
  if (file.path.native().find(kMark) == std::string::npos) {
    return {file};
  }
  std::vector<FileRef> files;
  for (int month = 1; month <= kMonths; ++month) {
    FileRef one = file;
    one.path = with_month(file.path.native(), month);
    one.written = with_month(file.written, month);
    files.push_back(std::move(one));
  }
  return files;
}

}  // namespace tidelot
