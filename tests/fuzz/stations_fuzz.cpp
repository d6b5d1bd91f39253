// SPDX-License-Identifier: Apache-2.0
// Bytes as a table of readings: refused in one line that names the file, or readings that lie on
// the earth and on a day of the calendar. A table that is read is the same when printed and read
// again. The first byte picks what is asked of the table; "\n@@\n" parts it from that of stations.
#include <cmath>
#include <stdexcept>
#include <string>

#include "layers/station_table.hpp"
#include "promise.hpp"
#include "tidelot/core/csv.hpp"
#include "tidelot/core/error.hpp"

namespace {

using namespace tidelot;
using fuzz::promise;

constexpr Quantity kQuantities[] = {Quantity::temperature, Quantity::salinity, Quantity::nitrogen,
                                    Quantity::secchi, Quantity::current};
constexpr std::string_view kParted = "\n@@\n";

std::string cell(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    out += c == '"' ? std::string("\"\"") : std::string(1, c);
  }
  return out + '"';
}

std::string line(const std::vector<std::string>& cells, char separator) {
  std::string out;
  for (const std::string& each : cells) {
    out += (out.empty() ? "" : std::string(1, separator)) + cell(each);
  }
  return out + '\n';
}

void check_table(std::string_view text) {
  const CsvTable table = parse_csv(text);
  std::string printed = line(table.header, table.separator);
  for (const CsvRow& row : table.rows) {
    promise(row.cells.size() == table.header.size(), "a row has as many cells as the header");
    printed += line(row.cells, table.separator);
  }
  const CsvTable again = parse_csv(printed);
  promise(again.header == table.header && again.rows.size() == table.rows.size(),
          "a printed table has the same header and rows");
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    promise(again.rows[i].cells == table.rows[i].cells, "a printed table has the same cells");
  }
}

StationWish wish_of(std::uint8_t mode, bool stations) {
  StationWish wish;
  wish.key = "water.x";
  wish.source.file = {"/plans/s.csv", "s.csv", "", ""};
  wish.quantity = kQuantities[mode % std::size(kQuantities)];
  wish.unit = mode & 0x20 ? std::string(canonical_unit(wish.quantity)) : "";
  if (stations) {
    wish.source.station_file = {"/plans/p.csv", "p.csv", "", ""};
  }
  if (mode & 0x40) {
    wish.source.characteristic = "Nitrate";
  }
  if (mode & 0x80) {
    wish.source.columns = {{"value", "v"}, {"date", "d"}};
  }
  return wish;
}

void check_readings(const Readings& readings) {
  promise(!readings.all.empty(), "a table that counts holds readings");
  for (const Reading& each : readings.all) {
    promise(std::isfinite(each.value), "a reading is finite");
    promise(std::abs(each.place.lon) <= 180.0 && std::abs(each.place.lat) <= 90.0,
            "a reading lies on the earth");
    promise(each.day.month >= 1 && each.day.month <= 12 && each.day.day >= 1 && each.day.day <= 31,
            "a reading has a day of the calendar");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  if (count == 0) {
    return 0;
  }
  const std::string_view text = fuzz::text_of(bytes + 1, count - 1);
  const std::size_t parted = text.find(kParted);
  const bool stations = parted != std::string_view::npos;
  const std::string_view table = text.substr(0, parted);
  try {
    check_readings(read_readings(wish_of(bytes[0], stations), table,
                                 stations ? text.substr(parted + kParted.size()) : ""));
  } catch (const Error& refusal) {
    fuzz::promise_one_line(refusal.what());
    promise(std::string_view(refusal.what()).starts_with("water.x"), "a refusal names the key");
  }
  try {
    check_table(table);
  } catch (const std::invalid_argument&) {
  }
  return 0;
}
