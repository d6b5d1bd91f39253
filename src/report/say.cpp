// SPDX-License-Identifier: Apache-2.0
#include "report/say.hpp"

#include "report/html.hpp"

namespace tidelot::page {
namespace {

thread_local const Labels* spoken = nullptr;

const Labels& current() { return spoken != nullptr ? *spoken : *Labels::built_in(); }

/// Name of every built-in text; of equal texts the first name.
const Labels::Table& names_by_text() {
  static const Labels::Table kNames = [] {
    Labels::Table names;
    for (const auto& [name, text] : Labels::built_in()->all()) {
      names.emplace(text, name);
    }
    return names;
  }();
  return kNames;
}

}  // namespace

Speaking::Speaking(const Labels& labels) : before_(spoken) { spoken = &labels; }
Speaking::~Speaking() { spoken = before_; }

const std::string& label(std::string_view name) { return current()[name]; }

std::string translated(const std::string& built_in) {
  const auto name = names_by_text().find(built_in);
  return name == names_by_text().end() ? built_in : label(name->second);
}

Labels::Table labels_of(std::string_view prefix) {
  Labels::Table found;
  for (const auto& [name, text] : current().all()) {
    if (name.rfind(prefix, 0) == 0) {
      found.emplace(name.substr(prefix.size()), text);
    }
  }
  return found;
}

std::string escaped_label(std::string_view name) { return text(label(name)); }

}  // namespace tidelot::page
