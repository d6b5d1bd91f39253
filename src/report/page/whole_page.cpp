// SPDX-License-Identifier: Apache-2.0
#include "report/page/whole_page.hpp"

#include <fmt/format.h>

#include "report/words/html.hpp"
#include "report/words/say.hpp"
#include "tidelot/core/sha256.hpp"

namespace tidelot::page {
namespace {

/// "'sha256-...'", as a policy names a text.
std::string name_of(std::string_view text) {
  Sha256 sum;
  sum.add(text);
  return fmt::format("'sha256-{}'", sum.base64());
}

}  // namespace

std::string policy(std::string_view style, std::string_view script) {
  return fmt::format(
      "default-src 'none'; base-uri 'none'; form-action 'none'; img-src data:; style-src {}; "
      "script-src {}",
      name_of(style), script.empty() ? "'none'" : name_of(script));
}

std::string html(const WholePage& whole) {
  const std::string body =
      whole.body_class.empty() ? "body" : fmt::format("body class=\"{}\"", whole.body_class);
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "{}\n{}\n</head>\n{}\n</html>\n",
      say("words.lang"), policy(whole.style, whole.script), element("title", whole.title),
      element("style", whole.style),
      element(body, "\n" + whole.body +
                        (whole.script.empty() ? "" : element("script", whole.script) + "\n")));
}

}  // namespace tidelot::page
