// SPDX-License-Identifier: Apache-2.0
#include "remote_file.hpp"

#include <cpl_conv.h>
#include <cpl_vsi.h>
#include <fmt/format.h>

#include "gdal_support.hpp"
#include "geoio.hpp"

namespace tidelot::geoio {
namespace {

constexpr const char* kAllowed = "CPL_VSIL_CURL_ALLOWED_FILENAME";
constexpr const char* kSettings[][2] = {
    {"GDAL_DISABLE_READDIR_ON_OPEN", "EMPTY_DIR"},
    {"GDAL_HTTP_CONNECTTIMEOUT", "10"},  // seconds; all judgement
    {"GDAL_HTTP_TIMEOUT", "60"},
    {"GDAL_HTTP_MAX_RETRY", "2"},
    {"GDAL_HTTP_RETRY_DELAY", "1"},
};

}  // namespace

InputFile remote_input(const FileRef& file, const std::string& key) {
  return {key, file, "/vsicurl/" + file.path.native(), false};
}

Reaching::Reaching(const InputFile& input) : remote_(input.file.remote) {
  if (remote_) {
    CPLSetThreadLocalConfigOption(kAllowed, input.path.c_str());
    for (const auto& [name, value] : kSettings) {
      CPLSetThreadLocalConfigOption(name, value);
    }
  }
}

Reaching::~Reaching() {
  if (remote_) {
    CPLSetThreadLocalConfigOption(kAllowed, nullptr);
    for (const auto& [name, value] : kSettings) {
      CPLSetThreadLocalConfigOption(name, nullptr);
    }
  }
}

RemoteStamp remote_stamp(const FileRef& file) {
  const Failures failures;
  const InputFile input = remote_input(file, "network");
  const Reaching reaching(input);
  VSICurlPartialClearCache(input.path.c_str());
  VSIStatBufL status{};
  if (VSIStatExL(input.path.c_str(), &status, VSI_STAT_EXISTS_FLAG | VSI_STAT_SIZE_FLAG) != 0) {
    throw input.error(fmt::format("the server does not give it any more ({})", failures.text()));
  }
  return {static_cast<std::uintmax_t>(status.st_size), static_cast<long long>(status.st_mtime)};
}

}  // namespace tidelot::geoio
