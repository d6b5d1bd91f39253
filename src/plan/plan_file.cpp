// SPDX-License-Identifier: Apache-2.0
#include "plan/plan_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <system_error>

#include "plan/toml_place.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/file_place.hpp"

namespace tidelot::planfile {
namespace {

namespace fs = std::filesystem;

/// What is wrong with a path before it is opened; "" where it is a plain file. A pipe must not be
/// opened at all: that would wait for a writer.
std::string path_fault(const fs::path& path) {
  std::error_code problem;
  const fs::file_status status = fs::status(path, problem);
  if (status.type() == fs::file_type::not_found) {
    return "no such file; check the name";
  }
  if (problem || status.type() == fs::file_type::none) {
    return fmt::format("can't be looked at ({}); check the path", problem.message());
  }
  if (status.type() == fs::file_type::directory) {
    return "is a folder; name the file in it";
  }
  return status.type() == fs::file_type::regular ? "" : "is not a plain file; save it as one";
}

}  // namespace

std::string read_text_file(const fs::path& path, const std::string& shown, Fault fault) {
  const auto fail = [&](const std::string& what) {
    throw Error(fault, fmt::format("{}: {}", shown, what));
  };
  if (const std::string what = path_fault(path); !what.empty()) {
    fail(what);
  }
  std::ifstream file(path, std::ios::binary);
  if (!file) {
    fail("can't be opened; check that you may read it");
  }
  std::string text(kMaxBytes + 1, '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (file.bad()) {
    fail("can't be read to its end; check the disk");
  }
  text.resize(static_cast<std::size_t>(file.gcount()));
  if (text.size() > kMaxBytes) {
    fail("is over 1 MB, too large for a plan or a crop profile; name another file");
  }
  return text;
}

std::string read_text_file(const FileRef& file, const std::string& shown, Fault fault) {
  if (file.remote) {
    throw Error(fault, one_line(fmt::format("{}: only a GeoTIFF is read from a server; fetch it "
                                            "first and name the copy",
                                            shown)));
  }
  if (const std::string outside = link_fault(file, file.path); !outside.empty()) {
    throw Error(fault, foreign_text(fmt::format("{}: {}", shown, outside)));
  }
  return read_text_file(file.path, shown, fault);
}

bool is_address(std::string_view name) {
  return name.starts_with("http://") || name.starts_with("https://");
}

std::string plain_file_fault(std::string_view name) {
  if (name.empty()) {
    return "names no file";
  }
  if (name.starts_with("/vsicurl")) {
    return "only plain files can be named; for a raster on a server write its address itself "
           "(https://...), with [run] allow = [\"network\"]";
  }
  if (name.starts_with("/vsi") || name.find("://") != std::string_view::npos) {
    return "only plain files can be named; download or unpack it and name the file";
  }
  const std::size_t colon = name.find(':');
  if (colon != std::string_view::npos && colon < name.find('/')) {
    return "only plain files can be named, without a driver before a colon (put ./ before a name "
           "that holds one; use variable or layer to pick a part of a file)";
  }
  return "";
}

}  // namespace tidelot::planfile
