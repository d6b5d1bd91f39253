// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>

namespace tidelot {

/// Every label of the report, by a name such as "map.title". One table holds them, so that a
/// translation is one file ([report] labels). {0}, {1} ... in a text stand for what is put there.
class Labels {
 public:
  using Table = std::map<std::string, std::string, std::less<>>;

  /// The labels that the program brings, in English: src/plan/labels.toml.
  [[nodiscard]] static std::shared_ptr<const Labels> built_in();

  /// Those of a file's text of the same form; a label that it leaves out keeps the built-in text.
  /// Throws Error(plan): a name that is not known (naming the nearest), a text that does not hold
  /// the same places {0}, {1} ... as the built-in one.
  [[nodiscard]] static std::shared_ptr<const Labels> from_text(std::string_view text,
                                                               const std::string& shown);

  /// Throws std::out_of_range for a name that is not in the table.
  [[nodiscard]] const std::string& operator[](std::string_view name) const;
  [[nodiscard]] const Table& all() const { return table_; }
  /// How many labels a file left out; 0 for the built-in ones.
  [[nodiscard]] std::size_t left_out() const { return left_out_; }

 private:
  Table table_;
  std::size_t left_out_ = 0;
};

}  // namespace tidelot
