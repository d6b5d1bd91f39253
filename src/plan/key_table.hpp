// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace tidelot::planfile {

/// What the value of a key may be.
enum class Kind {
  text,              ///< not blank
  free_text,         ///< may be empty
  choice,            ///< one of words
  words,             ///< a list of some of words
  number,            ///< finite, low..high
  whole,             ///< a whole number, low..high
  day,               ///< "MM-DD"
  day_or_auto,       ///< "auto" or "MM-DD"
  file,              ///< a plain file
  monthly_file,      ///< a plain file, or twelve with {month}
  number_or_file,    ///< a number low..high, or a plain file
  twelve,            ///< twelve numbers low..high
  number_or_twelve,  ///< one or twelve numbers low..high
  bounds,            ///< [west, south, east, north], degrees
  lon_lat,           ///< [longitude, latitude], degrees
  curve,             ///< [[x, y], ...]
  months,            ///< [5, 6, 7]: months of the year, 1 to 12
  boxes,             ///< four corners [longitude, latitude] round a box, or a list of such boxes
  judgements,        ///< [["a", "b", 3], ...]: a weighs three times as much as b
  numbers_table,     ///< a table of names of the user's choice with numbers
  table,             ///< [path.name]
  tables,            ///< [[path.name]]
  later,             ///< promised, not built: refused, never ignored
};

/// One key of the plan file. The whole list, in the order in which a plan is best read, is the one
/// place that states types, ranges, defaults and where the defaults come from.
struct Key {
  std::string_view table;  ///< "farm"; "water.*": each of the five; "columns": of their stations;
                           ///< "criteria.*": own ones
  std::string_view name;   ///< "*": any name
  Kind kind;
  std::string_view fallback = "";  ///< the default as TOML; "": none
  std::string_view basis = "";     ///< where the default comes from
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  std::string_view words = "";  ///< of a choice: "down|up"
  bool required = false;
  std::string_view unit = "";  ///< where neither the name nor the kind tells it
  std::string_view meaning =
      "";  ///< where the comment beside the key in the starter does not say it
};

[[nodiscard]] std::span<const Key> keys();

/// The keys that a table may hold, by its dotted path ("water.light", "closed[2]").
[[nodiscard]] std::vector<const Key*> keys_of(const std::string& path);

/// The entry for one key of a table; nullptr when there is none.
[[nodiscard]] const Key* find_key(const std::string& path, std::string_view name);

/// "down|up" -> "down", "up".
[[nodiscard]] std::vector<std::string> split_words(std::string_view words);

}  // namespace tidelot::planfile
