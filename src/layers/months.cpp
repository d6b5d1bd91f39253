// SPDX-License-Identifier: Apache-2.0
#include "months.hpp"

#include <fmt/format.h>

#include <string>

#include "tidelot/core/calendar.hpp"

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

}  // namespace

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
