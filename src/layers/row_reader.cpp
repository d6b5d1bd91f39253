// SPDX-License-Identifier: Apache-2.0
#include "row_reader.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <stdexcept>
#include <utility>

#include "station_date_advice.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {

RowReader::RowReader(const StationWish& wish, const CsvTable& table,
                     std::map<std::string, StationPlace> stations)
    : wish_(wish),
      table_(table),
      places_(table, wish.source.columns),
      stations_(std::move(stations)),
      separator_(table.separator),
      decimal_(decimal_mark(table, places_)),
      units_(wish.key, wish.quantity, wish.unit, places_.header(Column::value)) {
  const bool located = places_.has(Column::lon) && places_.has(Column::lat);
  if (!located && wish.source.station_file && !places_.has(Column::station)) {
    refuse_missing(table, Column::station, wish.key);
  }
  if (!located && !wish.source.station_file) {
    throw std::invalid_argument(fmt::format(
        "has no columns lon and lat, and no station_file that says where its stations lie; its "
        "header is {}; name columns in [{}.columns]",
        fmt::join(table.header, ", "), wish.key));
  }
  for (const Column column : {Column::date, Column::value}) {
    if (!places_.has(column)) {
      throw std::invalid_argument(
          fmt::format("has no column {0}; its header is {1}; say which it is, [{2}.columns] {0} = "
                      "\"...\"",
                      plain_name(column), fmt::join(table.header, ", "), wish.key));
    }
  }
}

bool RowReader::is_wanted(const CsvRow& row) {
  const std::string activity = small(row, Column::activity);
  if (activity.starts_with("quality control") || holds(activity, "blank") ||
      holds(activity, "duplicate") || holds(activity, "spike")) {
    return tally_.drop("of quality control (blanks, duplicates, spikes)", row);
  }
  const std::string medium = small(row, Column::medium);
  if (!medium.empty() && medium != "water") {
    return tally_.drop("of another medium than water", row);
  }
  if (small(row, Column::status) == "rejected") {
    return tally_.drop("with the status Rejected", row);
  }
  return is_surface(row);
}

/// A Secchi depth is of the whole water column.
bool RowReader::is_surface(const CsvRow& row) {
  if (wish_.quantity == Quantity::secchi) {
    return true;
  }
  const std::string level = small(row, Column::level);
  if (holds(level, "bottom") || holds(level, "mid") || holds(level, "below")) {
    return tally_.drop("from the bottom or the middle of the water", row);
  }
  if (places_.of(row, Column::depth).empty()) {
    return true;
  }
  const std::string unit = small(row, Column::depth_unit);
  if (!unit.empty() && !conversion(Quantity::depth, unit)) {
    refuse_row(row, fmt::format("\"{}\" is not a unit of depth", unit));
  }
  const Conversion to_m = unit.empty() ? Conversion{} : *conversion(Quantity::depth, unit);
  const double depth = to_m(number_in(places_, row, Column::depth, decimal_));
  if (depth < 0.0) {
    return tally_.drop("with a sampling depth below 0", row);
  }
  const double most = wish_.source.depth_max_m;
  return depth <= most + 1e-9 ||
         tally_.drop(fmt::format("from deeper than {} m (depth_max_m)", shortest(most)), row);
}

Day RowReader::day_of(const CsvRow& row, double lon) {
  const std::string& text = places_.of(row, Column::date);
  const auto stamp = parse_stamp(text);
  if (!stamp) {
    std::vector<std::string> dates;
    for (const CsvRow& each : table_.rows) {
      dates.push_back(places_.of(each, Column::date));
    }
    refuse_row(row, fmt::format("date \"{}\" is not a day as YYYY-MM-DD{}", text,
                                date_advice(text, dates)));
  }
  if (!stamp->utc && !is_utc(places_.of(row, Column::timezone))) {
    return stamp->day;
  }
  const std::string& clock = places_.of(row, Column::time);
  const auto hours = stamp->hours || clock.empty() ? stamp->hours : parse_clock(clock);
  if (!clock.empty() && !hours) {
    refuse_row(row, fmt::format("time \"{}\" is not hh:mm or hh:mm:ss", clock));
  }
  if (!hours) {
    tally_.keep("in UTC without a time: their day is taken as it stands", row);
    return stamp->day;
  }
  tally_.keep("in UTC: their day is that of local time (UTC + longitude/15 h)", row);
  return local_day(stamp->day, *hours, lon);
}

std::optional<StationPlace> RowReader::place(const CsvRow& row) {
  if (places_.has(Column::lon) && places_.has(Column::lat)) {
    return place_of(places_, row, decimal_);
  }
  const auto found = stations_.find(places_.of(row, Column::station));
  if (found == stations_.end()) {
    tally_.drop("of stations that the station file does not hold", row);
    return std::nullopt;
  }
  return found->second;
}

void RowReader::read(const CsvRow& row) {
  if (!is_wanted(row)) {
    return;
  }
  const auto at = place(row);
  const auto measured = at ? value(row) : std::nullopt;
  if (!measured) {
    return;
  }
  out_.all.push_back(
      {places_.of(row, Column::station), at->at, at->datum, day_of(row, at->at.lon), *measured});
  if (places_.of(row, Column::depth).empty() && places_.has(Column::depth) &&
      wish_.quantity != Quantity::secchi) {
    tally_.keep("without a sampling depth: taken as from the surface", row);
  }
  fractions_.insert(places_.of(row, Column::fraction));
  qualifiers_.insert(places_.of(row, Column::qualifier));
}

Readings RowReader::result() {
  out_.unit = units_.text();
  out_.usual_unit = units_.usual();
  out_.notes = tally_.lines();
  fractions_.erase("");
  qualifiers_.erase("");
  if (fractions_.size() > 1) {
    out_.notes.push_back(
        fmt::format("the fractions {} are taken together", fmt::join(fractions_, " and ")));
  }
  if (!qualifiers_.empty()) {
    out_.notes.push_back(
        fmt::format("rows with the qualifiers {} are kept", fmt::join(qualifiers_, ", ")));
  }
  if (units_.assumed()) {
    out_.notes.push_back(
        fmt::format("rows without a unit are taken as {}", canonical_unit(wish_.quantity)));
  }
  out_.basis = fmt::format("columns: {}; separated by {}{}", places_.text(),
                           separator_ == '\t'  ? "tabs"
                           : separator_ == ';' ? "semicolons"
                                               : "commas",
                           decimal_ == ',' ? ", decimal commas" : "");
  if (wish_.quantity != Quantity::secchi && places_.has(Column::depth)) {
    out_.basis += fmt::format("; down to {} m", shortest(wish_.source.depth_max_m));
  }
  return std::move(out_);
}

}  // namespace tidelot
