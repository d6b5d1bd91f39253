// SPDX-License-Identifier: Apache-2.0
#include "plan/key_table.hpp"

#include <algorithm>

namespace tidelot::planfile {
namespace {

bool is_table_of_list(std::string_view path) {
  return std::any_of(keys().begin(), keys().end(), [&](const Key& k) { return k.table == path; });
}

/// Which tables of the list describe the table at a path: its own, then one for all of its kind.
std::vector<std::string> lists_for(const std::string& path) {
  const std::string plain = path.substr(0, path.find('['));
  if (plain.starts_with("water.") && plain.ends_with(".columns")) {
    return {"columns"};  // one list of columns for every property
  }
  if (plain.starts_with("water.")) {
    return {plain, "water.*"};
  }
  if (plain.starts_with("criteria.") && !is_table_of_list(plain)) {
    return {"criteria.*"};
  }
  return {plain};
}

}  // namespace

std::vector<const Key*> keys_of(const std::string& path) {
  std::vector<const Key*> found;
  for (const std::string& list : lists_for(path)) {
    for (const Key& key : keys()) {
      const bool stated = std::any_of(found.begin(), found.end(),
                                      [&](const Key* k) { return k->name == key.name; });
      if (key.table == list && !stated) {
        found.push_back(&key);
      }
    }
  }
  return found;
}

const Key* find_key(const std::string& path, std::string_view name) {
  const Key* any = nullptr;
  for (const Key* key : keys_of(path)) {
    if (key->name == name) {
      return key;
    }
    any = key->name == "*" ? key : any;
  }
  return any;
}

std::vector<std::string> split_words(std::string_view words) {
  std::vector<std::string> out;
  while (!words.empty()) {
    const std::size_t bar = words.find('|');
    out.emplace_back(words.substr(0, bar));
    words.remove_prefix(bar == std::string_view::npos ? words.size() : bar + 1);
  }
  return out;
}

}  // namespace tidelot::planfile
