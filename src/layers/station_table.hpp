// SPDX-License-Identifier: Apache-2.0
// From a table of readings to the readings that count: what each row says, what is left out and
// why.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "station_day.hpp"
#include "tidelot/core/grid.hpp"
#include "tidelot/core/units.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot {

/// One value at one place on one day.
struct Reading {
  std::string station;  ///< "" where the table names none
  LonLat place;
  std::string datum;  ///< of the position as written, "" where not said
  Day day;            ///< local
  double value = 0.0;
};

/// What a table is wanted for.
struct StationWish {
  std::string key;  ///< "water.salinity"
  StationsRef source;
  Quantity quantity = Quantity::temperature;
  std::string unit;  ///< the plan's
};

struct Readings {
  std::vector<Reading> all;        ///< canonical unit, in the order of the table
  bool per_mass = false;           ///< values are per mass of seawater
  std::string unit;                ///< "mg/l as N -> umol/L"
  std::string usual_unit;          ///< of rows that say none: the plan's or the header's, else ""
  std::string basis;               ///< columns, separator, units, for the report
  std::vector<std::string> notes;  ///< what was left out or assumed, one line each
};

/// table, stations: the bytes of the two files; stations is empty where there is none. Throws
/// Error(input) with file and row, Error(plan) for a missing unit or choice.
[[nodiscard]] Readings read_readings(const StationWish& wish, std::string_view table,
                                     std::string_view stations);

}  // namespace tidelot
