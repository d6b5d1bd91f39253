// SPDX-License-Identifier: Apache-2.0
#include "plan/key_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <vector>

#include "plan/toml_place.hpp"
#include "plan/value_check.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::planfile {
namespace {

std::string joined(const std::string& path, std::string_view name) {
  return path.empty() ? std::string(name) : fmt::format("{}.{}", path, name);
}

/// Names of a table's keys, those that are not built yet left out.
std::vector<std::string> names_of(const std::string& path) {
  std::vector<std::string> names;
  for (const Key* key : keys_of(path)) {
    if (key->kind != Kind::later && key->name != "*") {
      names.emplace_back(key->name);
    }
  }
  return names;
}

/// The one other table that knows a key: a table's header that was forgotten is a common slip.
/// Empty where several know it.
std::string other_table(std::string_view name) {
  std::string table;
  for (const Key& key : keys()) {
    if (key.name == name && key.kind != Kind::later) {
      if (!table.empty() || key.table.empty() || key.table.ends_with('*')) {
        return "";
      }
      table = key.table;
    }
  }
  return table;
}

std::string advice_for_unknown(const std::string& path, std::string_view name) {
  const std::vector<std::string> names = names_of(path);
  if (const std::string near = nearest_word(name, names); !near.empty()) {
    return fmt::format("did you mean '{}'?", near);
  }
  if (const std::string table = other_table(name); !table.empty()) {
    return fmt::format("it belongs to [{}]", table);
  }
  return fmt::format("known here: {}", fmt::join(names, ", "));
}

bool is_own_name(std::string_view name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
  });
}

/// Walks the tables of a plan and collects what is wrong.
class Walk {
 public:
  /// called: the path for people.
  void table(const std::string& path, const std::string& called, const toml::table& table) {
    for (const auto& [name, value] : table) {
      one(path, called, name, value);
    }
    for (const Key* key : keys_of(path)) {
      if (key->required && !table.contains(key->name)) {
        missing_.push_back({table.source().begin, missing_text(path, called, *key)});
      }
    }
  }

  /// The problem to tell; nullptr when there is none.
  const Problem* first() {
    std::vector<Problem>& list = wrong_.empty() ? missing_ : wrong_;
    const auto earliest =
        std::min_element(list.begin(), list.end(), [](const Problem& a, const Problem& b) {
          return std::tie(a.at.line, a.at.column) < std::tie(b.at.line, b.at.column);
        });
    return earliest == list.end() ? nullptr : &*earliest;
  }

 private:
  void one(const std::string& path, const std::string& called, const toml::key& name,
           const toml::node& value) {
    const std::string full = joined(called, name.str());
    const Key* key = find_key(path, name.str());
    if (!key) {
      wrong_.push_back({name.source().begin, fmt::format("unknown key '{}'; {}", full,
                                                         advice_for_unknown(path, name.str()))});
    } else if (key->kind == Kind::later) {
      wrong_.push_back(
          {name.source().begin, fmt::format("{} is not yet supported; take it out", full)});
    } else if (key->name == "*" && !is_own_name(name.str())) {
      wrong_.push_back(
          {name.source().begin,
           fmt::format("'{}': a criterion's name is made of letters, digits, _ and -", full)});
    } else if (auto problem = check_value(*key, full, value)) {
      wrong_.push_back(std::move(*problem));
    } else {
      below(*key, joined(path, name.str()), value);
    }
  }

  void below(const Key& key, const std::string& full, const toml::node& value) {
    if (key.kind == Kind::table) {
      table(full, full, *value.as_table());
    } else if (key.kind == Kind::tables) {
      const toml::array& array = *value.as_array();
      for (std::size_t i = 0; i < array.size(); ++i) {
        const toml::table& each = *array.get_as<toml::table>(i);
        table(fmt::format("{}[{}]", full, i), called_in(full, i, each), each);
      }
    }
  }

  /// A table that is missing is named in brackets; an own criterion without its file may be a
  /// misspelt one.
  static std::string missing_text(const std::string& path, const std::string& called,
                                  const Key& key) {
    const std::string full = joined(called, key.name);
    if (key.kind == Kind::table) {
      return fmt::format("[{}] is missing; every plan needs it", full);
    }
    if (path.starts_with("criteria.") && key.name == "file") {
      const std::string near = nearest_word(path.substr(9), names_of("criteria"));
      return fmt::format("{} is missing; a criterion of one's own needs file and curve{}", full,
                         near.empty() ? "" : fmt::format(" (or did you mean '{}'?)", near));
    }
    return fmt::format("{} is missing; add it", full);
  }

  std::vector<Problem> wrong_;
  std::vector<Problem> missing_;
};

}  // namespace

std::string called_in(std::string_view tables, std::size_t index, const toml::table& table) {
  const bool rule = tables == "closed" || tables == "near";
  return table_called(tables, index, rule ? table["name"].value_or(std::string_view()) : "");
}

void check_keys(const toml::table& root, const std::string& where) {
  Walk walk;
  walk.table("", "", root);
  if (const Problem* problem = walk.first()) {
    fail_at(where, {problem->at, problem->at, nullptr}, problem->text);
  }
}

}  // namespace tidelot::planfile
