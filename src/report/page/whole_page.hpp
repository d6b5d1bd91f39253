// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace tidelot::page {

/// A page from its first line to its last. All but the title and the class is markup, style or
/// script as it stands.
struct WholePage {
  std::string title;  ///< markup
  std::string style;  ///< the only one: a style attribute has no effect
  std::string body;
  std::string script{};  ///< the only one, "" for none: an event attribute has no effect
  std::string body_class{};
};

/// Its policy lets the browser ask nothing of anyone, draw nothing but pictures inside the page,
/// and obey no style and no script but the two given, which it knows by their SHA-256: what is
/// written into a page by way of a name or a remark stays text even if it were not escaped.
[[nodiscard]] std::string html(const WholePage& whole);

/// The policy, for a style and a script ("": none).
[[nodiscard]] std::string policy(std::string_view style, std::string_view script);

}  // namespace tidelot::page
