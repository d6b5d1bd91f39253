// SPDX-License-Identifier: Apache-2.0
#include "report/words/say.hpp"

#include <algorithm>
#include <optional>
#include <vector>

#include "report/words/html.hpp"

namespace tidelot::page {
namespace {

thread_local const Labels* spoken = nullptr;

/// A built-in text that another room writes, cut at its places: "{0} over {1} of it" is "", " over
/// ", " of it". The places stand in the order of their numbers.
struct Pattern {
  std::string name;
  std::vector<std::string> pieces;
};

std::vector<std::string> cut_at_places(std::string_view text) {
  std::vector<std::string> pieces;
  for (std::size_t open = text.find('{'); open != std::string_view::npos; open = text.find('{')) {
    pieces.emplace_back(text.substr(0, open));
    text.remove_prefix(open + 3);
  }
  pieces.emplace_back(text);
  return pieces;
}

/// The longest fixed text first, so that the closest pattern is found.
const std::vector<Pattern>& patterns() {
  static const std::vector<Pattern> kPatterns = [] {
    std::vector<Pattern> found;
    for (const auto& [name, text] : Labels::built_in()->all()) {
      if (name.starts_with("reason.") || name.starts_with("told.")) {
        found.push_back({name, cut_at_places(text)});
      }
    }
    const auto fixed = [](const Pattern& pattern) {
      std::size_t length = 0;
      for (const std::string& piece : pattern.pieces) {
        length += piece.size();
      }
      return length;
    };
    std::stable_sort(found.begin(), found.end(),
                     [&](const Pattern& a, const Pattern& b) { return fixed(a) > fixed(b); });
    return found;
  }();
  return kPatterns;
}

/// What stands at the places of a pattern; none where the text is not made by it.
std::optional<std::vector<std::string>> parts_of(std::string_view text, const Pattern& pattern) {
  std::vector<std::string> parts;
  const std::vector<std::string>& pieces = pattern.pieces;
  if (!text.starts_with(pieces.front())) {
    return std::nullopt;
  }
  text.remove_prefix(pieces.front().size());
  for (std::size_t i = 1; i < pieces.size(); ++i) {
    const bool last = i + 1 == pieces.size();
    const std::size_t at = last ? text.rfind(pieces[i]) : text.find(pieces[i]);
    if (at == std::string_view::npos || (last && at + pieces[i].size() != text.size())) {
      return std::nullopt;
    }
    parts.emplace_back(text.substr(0, at));
    text.remove_prefix(at + pieces[i].size());
  }
  return text.empty() ? std::optional(parts) : std::nullopt;
}

/// A label's text with its places filled.
std::string filled(const std::string& text, const std::vector<std::string>& parts) {
  std::string all;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '{') {
      all += parts.at(static_cast<std::size_t>(text[i + 1] - '0'));
      i += 2;
    } else {
      all += text[i];
    }
  }
  return all;
}

}  // namespace

Speaking::Speaking(const Labels& labels) : before_(spoken) { spoken = &labels; }
Speaking::~Speaking() { spoken = before_; }

const Labels& spoken_labels() { return spoken != nullptr ? *spoken : *Labels::built_in(); }

const std::string& label(std::string_view name) { return spoken_labels()[name]; }

std::string translated(const std::string& built_in) {
  for (const Pattern& pattern : patterns()) {
    if (auto parts = parts_of(built_in, pattern)) {
      for (std::string& part : *parts) {
        part = translated(part);
      }
      return filled(label(pattern.name), *parts);
    }
  }
  return built_in;
}

Labels::Table labels_of(std::string_view prefix) {
  Labels::Table found;
  for (const auto& [name, text] : spoken_labels().all()) {
    if (name.rfind(prefix, 0) == 0) {
      found.emplace(name.substr(prefix.size()), text);
    }
  }
  return found;
}

std::string escaped_label(std::string_view name) { return text(label(name)); }

}  // namespace tidelot::page
