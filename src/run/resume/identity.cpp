// SPDX-License-Identifier: Apache-2.0
#include "run/resume/identity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>
#include <vector>

#include "geoio/geoio.hpp"
#include "report/folder/output_names.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/core/version.hpp"

namespace tidelot::run {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

std::string plan_text(const Plan& plan) {
  std::string all = fmt::format("tidelot {}\n", version());
  for (const ResolvedKey& key : plan.keys) {
    all += fmt::format("{} = {}\n", key.key, key.value);
  }
  for (const CropConstant& constant : plan.crop.constants) {
    all += fmt::format("crop.{} = {} {} {}\n", constant.name, shortest(constant.low),
                       shortest(constant.value), shortest(constant.high));
  }
  return all;
}

Json run_json_in(const fs::path& folder) {
  std::ifstream file(folder / kRunJson, std::ios::binary);
  return file ? Json::parse(file, nullptr, false) : Json();
}

std::string text_of(const Json& json, const char* key) {
  const bool there = json.is_object() && json.contains(key) && json[key].is_string();
  return there ? json[key].get<std::string>() : "";
}

}  // namespace

std::vector<fs::path> with_companions(const fs::path& file) {
  const std::string stem = file.stem().string() + ".";
  std::vector<fs::path> found;
  std::error_code error;
  for (fs::directory_iterator next(file.parent_path(), error), end; !error && next != end;
       next.increment(error)) {
    if (next->is_regular_file() && next->path().filename().string().starts_with(stem)) {
      found.push_back(next->path());
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

Identity identity_of(const Plan& plan, std::span<const FileRef> files) {
  std::string all = plan_text(plan);
  Identity out;
  for (const FileRef& file : files) {
    if (file.remote) {
      const geoio::RemoteStamp stamp = geoio::remote_stamp(file);
      all += fmt::format("{} {} {}\n", file.written, stamp.bytes, stamp.modified_s);
      out.inputs.emplace_back(file, Digest{"", stamp.bytes});
      continue;
    }
    std::optional<Digest> own;
    for (const fs::path& each : with_companions(file.path)) {
      Digest digest = digest_of(each, file.written);
      all += fmt::format("{} {} {}\n", file.written, each.extension().string(), digest.sha256);
      if (each.filename() == file.path.filename()) {
        own = std::move(digest);
      }
    }
    out.inputs.emplace_back(file, own ? *std::move(own) : digest_of(file.path, file.written));
  }
  out.sha256 = sha256_of(all);
  return out;
}

std::string identity_now(const Plan& plan, const fs::path& folder) {
  const Json json = run_json_in(folder);
  if (!json.is_object() || !json.contains("inputs") || !json["inputs"].is_array()) {
    return "";
  }
  std::vector<FileRef> files;
  for (const Json& input : json["inputs"]) {
    FileRef file;
    file.written = text_of(input, "file");
    file.path = plan.path.parent_path() / file.written;
    if (file.written.empty() || !fs::is_regular_file(file.path)) {
      return "";
    }
    files.push_back(std::move(file));
  }
  try {
    return identity_of(plan, files).sha256;
  } catch (const Error&) {
    return "";
  }
}

std::string identity_kept(const fs::path& folder) {
  return text_of(run_json_in(folder), "identity");
}

}  // namespace tidelot::run
