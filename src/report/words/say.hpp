// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fmt/format.h>

#include <string>
#include <string_view>

#include "tidelot/plan/labels.hpp"

/// The words of the pages, by the names of the one table of labels.
///
/// The language is set once where a page begins, as a locale is, and holds on that thread until the
/// page is done: so a function that writes a date needs no plan to know how the month is called.
namespace tidelot::page {

/// While it lives, pages made on this thread speak these labels; without one, the built-in ones.
class Speaking {
 public:
  explicit Speaking(const Labels& labels);
  ~Speaking();
  Speaking(const Speaking&) = delete;
  Speaking& operator=(const Speaking&) = delete;

 private:
  const Labels* before_;
};

/// The labels that are spoken on this thread: what another one that makes part of the page speaks.
[[nodiscard]] const Labels& spoken_labels();

/// The label as it stands in the table: plain text, places not filled.
[[nodiscard]] const std::string& label(std::string_view name);
/// A text that some other room wrote, in the reader's language: where a label of [reason] or [told]
/// makes it, that label, with what stands at its places translated likewise; else the text itself,
/// because then it comes from the plan.
[[nodiscard]] std::string translated(const std::string& built_in);
/// Every label whose name begins with a prefix, without the prefix.
[[nodiscard]] Labels::Table labels_of(std::string_view prefix);

/// The label as plain text, its places filled with plain text.
template <typename... Parts>
[[nodiscard]] std::string plain_say(std::string_view name, const Parts&... parts) {
  return fmt::format(fmt::runtime(label(name)), parts...);
}

/// The label as markup, its places filled with markup.
[[nodiscard]] std::string escaped_label(std::string_view name);
template <typename... Parts>
[[nodiscard]] std::string say(std::string_view name, const Parts&... parts) {
  return fmt::format(fmt::runtime(escaped_label(name)), parts...);
}

}  // namespace tidelot::page
