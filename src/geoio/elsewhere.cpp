// SPDX-License-Identifier: Apache-2.0
#include "elsewhere.hpp"

#include <cpl_http.h>
#include <cpl_string.h>
#include <fmt/format.h>

#include <regex>
#include <utility>

#include "gdal_support.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/file_place.hpp"

namespace tidelot::geoio {
namespace {

thread_local std::string asked_of_thread;

CPLHTTPResult* refuse_fetch(const char* address, CSLConstList /*options*/,
                            GDALProgressFunc /*progress*/, void* /*of progress*/,
                            CPLHTTPFetchWriteFunc /*write*/, void* /*of write*/, void* /*data*/) {
  asked_of_thread = address != nullptr ? address : "?";
  CPLError(CE_Failure, CPLE_AppDefined, "the network is not asked");
  auto* const result = static_cast<CPLHTTPResult*>(CPLCalloc(1, sizeof(CPLHTTPResult)));
  result->nStatus = 1;
  result->pszErrBuf = CPLStrdup("the network is not asked");
  return result;
}

void refuse_files_outside(const InputFile& input, GDALDataset& dataset) {
  const CPLStringList names(dataset.GetFileList());
  for (int i = 0; i < names.size(); ++i) {
    if (const std::string fault = link_fault(input.file, names[i]); !fault.empty()) {
      throw input.error(fmt::format("draws on {}: {}", foreign_text(names[i]), fault));
    }
  }
}

/// Is the only virtual table that it can make the index of places that every GeoPackage may have?
bool makes_index_only(const std::string& sql) {
  static const std::regex kIndex(
      R"(\s*create\s+virtual\s+table\s+("([^"]|"")*"|\w+)\s+using\s+"?rtree"?\s*\([^()]*\)\s*)",
      std::regex::icase);
  return std::regex_match(sql, kIndex);
}

/// A virtual table's module can be one that reads text, spreadsheets or shapes from anywhere.
void refuse_virtual_tables(const InputFile& input, GDALDataset& package) {
  OGRLayer* const rows = package.ExecuteSQL(
      "SELECT name, sql FROM sqlite_master WHERE sql LIKE '%virtual%using%'", nullptr, nullptr);
  std::string bad;
  for (FeatureHandle row(rows != nullptr ? rows->GetNextFeature() : nullptr);
       row != nullptr && bad.empty(); row.reset(rows->GetNextFeature())) {
    if (!makes_index_only(row->GetFieldAsString("sql"))) {
      bad = row->GetFieldAsString("name");
    }
  }
  package.ReleaseResultSet(rows);
  if (!bad.empty()) {
    throw input.error(fmt::format(
        "its table \"{}\" is made out of other files; save its shapes in a GeoPackage of their own",
        foreign_text(bad)));
  }
}

}  // namespace

void refuse_elsewhere(const InputFile& input, GDALDataset& dataset) {
  if (!input.file.remote) {
    refuse_files_outside(input, dataset);
  }
  if (std::string_view(dataset.GetDriverName()) == "GPKG") {
    refuse_virtual_tables(input, dataset);
  }
}

void refuse_every_fetch() { CPLHTTPSetFetchCallback(refuse_fetch, nullptr); }

std::string refused_fetch() { return std::exchange(asked_of_thread, {}); }

}  // namespace tidelot::geoio
