// SPDX-License-Identifier: Apache-2.0
#include "report/words/rank_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "report/words/say.hpp"
#include "report/words/words.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::page {
namespace {

constexpr int kMostDecimals = 6;
constexpr double kClose = 0.01;  // judgement: no layer is known so well

std::vector<std::string> printed(std::span<const Site> ranked, int decimals) {
  std::vector<std::string> out;
  for (const Site& site : ranked) {
    out.push_back(fixed(100.0 * site.score / ranked[0].score, decimals));
  }
  return out;
}

/// Do two in a row that differ look alike?
bool blurs(std::span<const Site> ranked, const std::vector<std::string>& scores) {
  for (std::size_t i = 1; i < ranked.size(); ++i) {
    if (ranked[i].score != ranked[i - 1].score && scores[i] == scores[i - 1]) {
      return true;
    }
  }
  return false;
}

bool any_equal(std::span<const Site> ranked) {
  for (std::size_t i = 1; i < ranked.size(); ++i) {
    if (ranked[i].score == ranked[i - 1].score) {
      return true;
    }
  }
  return false;
}

}  // namespace

std::string ranks_in_row(std::span<const Site> ranked, std::size_t first, std::size_t last) {
  std::string names = std::to_string(ranked[first].rank);
  for (std::size_t i = first + 1; i < last; ++i) {
    names += ", " + std::to_string(ranked[i].rank);
  }
  return plain_say("spread.and", names, ranked[last].rank);
}

std::vector<std::string> scores_in_percent(std::span<const Site> ranked) {
  int decimals = 1;
  while (decimals < kMostDecimals && blurs(ranked, printed(ranked, decimals))) {
    ++decimals;
  }
  return printed(ranked, decimals);
}

std::string rank_sentence(std::span<const Site> ranked) {
  if (ranked.empty() || !(ranked.front().score > 0.0)) {  // an own box may be worth nothing
    return "";
  }
  const std::string scores = fmt::format("{}", fmt::join(scores_in_percent(ranked), ", "));
  return plain_say("rank.goes_by", scores) +
         (any_equal(ranked) ? " " + label("rank.equal_ones") : "");
}

std::vector<std::string> close_notes(std::span<const Site> ranked) {
  std::vector<std::string> notes;
  if (ranked.empty() || ranked.front().spread || !(ranked.front().score > 0.0)) {
    return notes;
  }
  for (std::size_t first = 0; first < ranked.size(); ++first) {
    std::size_t last = first;
    while (last + 1 < ranked.size() &&
           ranked[last + 1].score > (1.0 - kClose) * ranked[last].score) {
      ++last;
    }
    if (last > first) {
      notes.push_back(plain_say("rank.close", ranks_in_row(ranked, first, last), percent(kClose)));
    }
    first = last;
  }
  return notes;
}

}  // namespace tidelot::page
