// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <toml++/toml.h>

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tidelot/plan/plan.hpp"

namespace tidelot::planfile {

/// A checked plan while its tables are read into a Plan.
struct Reading {
  const toml::table& root;
  std::string where;             ///< the plan's file name as given, for messages
  std::filesystem::path folder;  ///< relative paths start here; absolute
  Plan& plan;                    ///< keys and warnings are added as tables are read

  /// Adds a key that is in force without standing in the list of keys with a default of its own.
  void record(std::string key, std::string json, bool given, std::string_view basis = "");
};

/// One table of a checked plan (check_keys ran before, so types and ranges hold). Every read takes
/// the given value or the default of the list of keys, and records which in Plan::keys.
class Section {
 public:
  /// The table at a dotted path, or an empty one where the plan leaves it out.
  Section(Reading& reading, const std::string& path);
  Section(Reading& reading, const toml::table* table, std::string path);
  /// One of several tables: closed[1] where keys are recorded, a rule by its name where it fails.
  Section(Reading& reading, const toml::array& tables, std::string_view name, std::size_t index);

  [[nodiscard]] bool given(std::string_view key) const;

  // A read with "maybe" may be empty; the others need a given value or a default.
  [[nodiscard]] std::string text(std::string_view key);  ///< "" where there is none
  [[nodiscard]] double number(std::string_view key);
  [[nodiscard]] std::int64_t whole(std::string_view key);
  [[nodiscard]] std::optional<double> maybe_number(std::string_view key);
  [[nodiscard]] std::optional<DayOfYear> maybe_day(std::string_view key);  ///< empty: "auto", too
  [[nodiscard]] std::optional<FileRef> maybe_file(std::string_view key);
  [[nodiscard]] FileRef file(std::string_view key);
  /// A file by the name that the key gives. One that leaves the plan's folder is refused, unless
  /// the plan allows it.
  [[nodiscard]] FileRef file_named(std::string_view key, const std::string& written) const;
  [[nodiscard]] std::vector<double> numbers(std::string_view key);  ///< a number is a list of one
  [[nodiscard]] std::vector<std::string> words(std::string_view key);
  [[nodiscard]] Monthly twelve(std::string_view key);
  [[nodiscard]] Curve curve(std::string_view key);
  [[nodiscard]] std::vector<std::array<LonLat, 4>> boxes(std::string_view key);
  struct Judgement {
    std::string first, second;
    double times = 1.0;
  };
  [[nodiscard]] std::vector<Judgement> judgements(std::string_view key);

  /// "where:line:column: path.key what" at the key's value, or at the table where the key is left
  /// out.
  [[nodiscard]] std::string placed(std::string_view key, const std::string& what) const;
  /// Throws Error(plan) with that line.
  [[noreturn]] void fail(std::string_view key, const std::string& what) const;

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const toml::table* table() const { return table_; }
  [[nodiscard]] Reading& reading() const { return reading_; }

 private:
  /// Refuses an address that holds a secret, or any where the plan does not allow the network.
  void check_address(std::string_view key, const std::string& address) const;
  const toml::node* take(std::string_view key);

  Reading& reading_;
  const toml::table* table_;
  std::string path_;
  std::string called_;  ///< the path for people
};

}  // namespace tidelot::planfile
