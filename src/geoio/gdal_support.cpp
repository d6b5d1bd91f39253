// SPDX-License-Identifier: Apache-2.0
#include "gdal_support.hpp"

#include <cpl_error.h>
#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cctype>

#include "geoio.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::size_t kKept = 64;

/// Failures of this thread since its outermost Failures scope began; `missed` counts those beyond
/// the first kKept, of which only the number matters.
struct Log {
  std::vector<std::string> texts;
  std::size_t missed = 0;
  int scopes = 0;
  [[nodiscard]] std::size_t count() const { return texts.size() + missed; }
};
thread_local Log log_of_thread;

/// Null: the library ends the process its own way, without a word.
std::atomic<LastWords> last_words = nullptr;

void CPL_STDCALL keep_failure(CPLErr severity, CPLErrorNum /*number*/, const char* text) {
  if (const LastWords say = last_words; severity == CE_Fatal && say != nullptr) {
    say(text);
  }
  Log& log = log_of_thread;
  if (severity < CE_Failure || log.scopes == 0) {
    return;
  }
  if (log.texts.size() < kKept) {
    log.texts.emplace_back(text);
  } else {
    ++log.missed;
  }
}

bool is_epsg(std::string_view crs) {
  std::string lower(crs.substr(0, 5));
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  const std::string_view code = crs.substr(std::min<std::size_t>(5, crs.size()));
  return lower == "epsg:" && !code.empty() && code.size() < 9 &&
         std::all_of(code.begin(), code.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// WKT begins with a keyword and a bracket.
bool is_wkt(std::string_view crs) {
  const auto bracket = crs.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ_");
  return bracket != std::string_view::npos && bracket > 3 && crs[bracket] == '[';
}

/// "+proj=..." without the switches that name files to read.
bool is_proj_string(std::string_view crs) {
  return crs.starts_with("+") && crs.find("+init") == std::string_view::npos &&
         crs.find("grids=") == std::string_view::npos;
}

std::string authority_code(const OGRSpatialReference& reference) {
  const char* name = reference.GetAuthorityName(nullptr);
  const char* code = reference.GetAuthorityCode(nullptr);
  return name != nullptr && code != nullptr ? fmt::format("{}:{}", name, code) : "";
}

}  // namespace

void install_error_handler() { CPLSetErrorHandler(keep_failure); }

void before_abort(LastWords say) { last_words = say; }

Failures::Failures() : begin_(log_of_thread.count()) { ++log_of_thread.scopes; }

Failures::~Failures() {
  if (--log_of_thread.scopes == 0) {
    log_of_thread = Log{};
  }
}

bool Failures::any() const { return count() > 0; }

std::size_t Failures::count() const { return log_of_thread.count() - begin_; }

std::string Failures::text() const {
  const auto& texts = log_of_thread.texts;
  return begin_ < texts.size() ? foreign_text(texts[begin_]) : "no reason given";
}

OGRSpatialReference make_reference(const std::string& crs, std::string_view key, Fault fault) {
  const Failures failures;
  OGRSpatialReference reference;
  const bool allowed = is_epsg(crs) || is_wkt(crs) || is_proj_string(crs);
  if (!allowed ||
      reference.SetFromUserInput(
          crs.c_str(), OGRSpatialReference::SET_FROM_USER_INPUT_LIMITATIONS_get()) != OGRERR_NONE) {
    throw Error(fault, fmt::format("{}: \"{}\" is not a reference system that PROJ knows; give "
                                   "EPSG:n, WKT or a PROJ string{}",
                                   key, foreign_text(crs),
                                   failures.any() ? " (" + failures.text() + ")" : ""));
  }
  return with_traditional_axes(reference);
}

OGRSpatialReference with_traditional_axes(const OGRSpatialReference& reference) {
  OGRSpatialReference result(reference);
  if (result.IsCompound()) {
    result.StripVertical();
  }
  result.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  return result;
}

bool is_on_earth(const OGRSpatialReference& reference) {
  const char* name = reference.GetName();
  const bool undefined = name != nullptr && std::string_view(name).starts_with("Undefined");
  return !undefined && (reference.IsGeographic() != 0 || reference.IsProjected() != 0);
}

std::string reference_name(const OGRSpatialReference& reference) {
  const char* name = reference.GetName();
  const std::string code = authority_code(reference);
  const std::string text = foreign_text(name != nullptr ? name : "unnamed");
  return code.empty() ? text : fmt::format("{} ({})", text, code);
}

std::string reference_text(const OGRSpatialReference& reference) {
  const std::string code = authority_code(reference);
  if (code.starts_with("EPSG:")) {
    return code;
  }
  char* wkt = nullptr;
  const char* const options[] = {"FORMAT=WKT2_2019", nullptr};
  const bool good = reference.exportToWkt(&wkt, options) == OGRERR_NONE;
  std::string text = good && wkt != nullptr ? wkt : "";
  CPLFree(wkt);
  return text;
}

}  // namespace tidelot::geoio
