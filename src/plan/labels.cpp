// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/labels.hpp"

#include <fmt/format.h>

#include <set>
#include <stdexcept>

#include "plan/toml_place.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr std::string_view kBuiltIn =
#include "labels.toml.inc"
    ;

/// One label where it stands in its file.
struct Entry {
  std::string name;
  std::string text;
  toml::source_region place;
};

std::vector<Entry> entries_of(const toml::table& root, const std::string& where) {
  std::vector<Entry> entries;
  for (const auto& [group, content] : root) {
    const toml::table* labels = content.as_table();
    if (labels == nullptr) {
      fail_at(where, content.source(), fmt::format("{}: must be a table of labels", group.str()));
    }
    for (const auto& [key, value] : *labels) {
      std::string name = fmt::format("{}.{}", group.str(), key.str());
      const auto* text = value.as_string();
      if (text == nullptr || text->get().empty()) {
        fail_at(where, value.source(), name + " must be text in quotes, not empty");
      }
      if (text->get().find_first_of("<>&") != std::string::npos) {
        fail_at(where, value.source(), name + " must not hold <, > or &: a label is no markup");
      }
      entries.push_back({std::move(name), text->get(), value.source()});
    }
  }
  return entries;
}

/// The digits in {0}, {1} ...; '?' where a brace is anything else.
std::set<char> places_in(std::string_view text) {
  std::set<char> places;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '}') {
      places.insert('?');
    } else if (text[i] == '{') {
      const bool place =
          i + 2 < text.size() && text[i + 1] >= '0' && text[i + 1] <= '9' && text[i + 2] == '}';
      places.insert(place ? text[i + 1] : '?');
      i += place ? 2 : 0;
    }
  }
  return places;
}

std::string listed(const std::set<char>& places) {
  std::string all;
  for (const char each : places) {
    all += fmt::format("{}{{{}}}", all.empty() ? "" : ", ", each);
  }
  return all.empty() ? "none" : all;
}

void check(const Entry& entry, const Labels::Table& known, const std::string& where) {
  const auto built_in = known.find(entry.name);
  if (built_in == known.end()) {
    std::vector<std::string> names;
    for (const auto& [name, text] : known) {
      names.push_back(name);
    }
    const std::string near = nearest_word(entry.name, names);
    fail_at(where, entry.place,
            fmt::format("{}: no label has that name; {}", entry.name,
                        near.empty() ? "the names stand in src/plan/labels.toml"
                                     : fmt::format("did you mean '{}'?", near)));
  }
  const std::set<char> wanted = places_in(built_in->second);
  if (const std::set<char> found = places_in(entry.text); found != wanted) {
    fail_at(where, entry.place,
            fmt::format("{}: the text must hold the places of the built-in one ({}), not {}",
                        entry.name, listed(wanted), listed(found)));
  }
}

}  // namespace

std::shared_ptr<const Labels> Labels::built_in() {
  static const std::shared_ptr<const Labels> kLabels = [] {
    const std::string where = "labels.toml";
    auto labels = std::make_shared<Labels>();
    for (Entry& entry : entries_of(parse_toml(kBuiltIn, where), where)) {
      labels->table_.emplace(std::move(entry.name), std::move(entry.text));
    }
    return labels;
  }();
  return kLabels;
}

std::shared_ptr<const Labels> Labels::from_text(std::string_view text, const std::string& shown) {
  const toml::table root = parse_toml(text, shown);
  auto labels = std::make_shared<Labels>(*built_in());
  std::size_t given = 0;
  for (Entry& entry : entries_of(root, shown)) {
    check(entry, labels->table_, shown);
    labels->table_[entry.name] = std::move(entry.text);
    ++given;
  }
  labels->left_out_ = labels->table_.size() - given;
  return labels;
}

const std::string& Labels::operator[](std::string_view name) const {
  const auto found = table_.find(name);
  if (found == table_.end()) {
    throw std::out_of_range("no label is named " + std::string(name));
  }
  return found->second;
}

}  // namespace tidelot
