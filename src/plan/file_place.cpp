// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/file_place.hpp"

#include <system_error>

namespace tidelot {

namespace fs = std::filesystem;

bool lies_in(const fs::path& path, const fs::path& folder) {
  const fs::path way = path.lexically_normal().lexically_relative(folder.lexically_normal());
  return !way.empty() && *way.begin() != "..";
}

std::string outside_fault(const FileRef& file, const fs::path& really) {
  if (file.within.empty()) {
    return "";
  }
  std::error_code unknown;
  const fs::path folder = fs::canonical(file.within, unknown);
  return !unknown && lies_in(really, folder)
             ? ""
             : "a link leads out of the plan's folder; copy the file in, or allow it with [run] "
               "allow = [\"outside\"]";
}

std::string link_fault(const FileRef& file, const fs::path& path) {
  std::error_code missing;
  const fs::path really = fs::canonical(path, missing);
  return missing ? "" : outside_fault(file, really);
}

}  // namespace tidelot
