// SPDX-License-Identifier: Apache-2.0
#include "run/compare/finished.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

#include "report/folder/output_names.hpp"
#include "run/compare/bay_json.hpp"
#include "run/resume/digest.hpp"
#include "run/resume/identity.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/version.hpp"
#include "tidelot/report/output_folder.hpp"

namespace tidelot::run {
namespace {

namespace fs = std::filesystem;

bool is_same(const Plan& plan, const fs::path& folder) {
  const std::string kept = identity_kept(folder);
  return !kept.empty() && kept == identity_now(plan, folder);
}

constexpr std::size_t kLongestName = 60;

}  // namespace

FinishedRun read_finished(const fs::path& folder) {
  std::ifstream file(folder / kRunJson, std::ios::binary);
  try {
    const auto json = nlohmann::ordered_json::parse(file);
    return {folder, bay_from(json.at("bay")), json.at("grid").at("scale").get<double>(), false};
  } catch (const nlohmann::ordered_json::exception& problem) {
    throw Error(Fault::input, fmt::format("{}: is not the record of a run of this version ({}); "
                                          "remove the folder and compare again",
                                          (folder / kRunJson).string(), problem.what()));
  }
}

FinishedRun finished(const Plan& plan, const fs::path& folder, const RunOptions& options) {
  for (const fs::path& place : {folder, default_out(plan.path)}) {
    if (is_same(plan, place)) {
      FinishedRun out = read_finished(place);
      out.reused = true;
      return out;
    }
  }
  RunOptions here = options;
  here.out = folder;
  here.resume = true;
  static_cast<void>(scout(plan, here));
  return read_finished(folder);
}

nlohmann::ordered_json kept_in(const fs::path& folder, const std::string& name,
                               const std::string& of,
                               const std::function<nlohmann::ordered_json()>& find) {
  using Json = nlohmann::ordered_json;
  const std::string identity = sha256_of(fmt::format("{} {} {}", name, version(), of));
  if (identity_kept(folder) == identity) {
    std::ifstream file(folder / kRunJson, std::ios::binary);
    return Json::parse(file).at(name);
  }
  const Json record{{"program", "tidelot"}, {"version", version()},
                    {"command", "compare"}, {"identity", identity},
                    {name, find()},         {"outputs", Json::array({kRunJson})}};
  OutputFolder out(folder);
  out.write(std::string(kRunJson),
            record.dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
  out.commit();
  return record.at(name);
}

std::string folder_name(const std::string& title) {
  std::string out;
  for (const char c : title) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (letter || small != c) {
      out += small;
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  out.resize(std::min(out.size(), kLongestName));
  while (!out.empty() && out.back() == '-') {
    out.pop_back();
  }
  return out.empty() ? "bay" : out;
}

}  // namespace tidelot::run
