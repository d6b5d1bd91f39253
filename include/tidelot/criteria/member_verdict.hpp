// SPDX-License-Identifier: Apache-2.0
// May a site lie in a cell, asked of all members of an uncertain bay at once.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "tidelot/criteria/reason.hpp"

namespace tidelot {

/// Members are taken so many at once: arrays hold a whole number of them.
inline constexpr std::size_t kMembersAtOnce = 16;
[[nodiscard]] constexpr std::size_t padded_members(std::size_t members) {
  return (members + kMembersAtOnce - 1) / kMembersAtOnce * kMembersAtOnce;
}

/// What differs between the members of one cell; arrays of padded_members() values.
struct MembersOfCell {
  /// Yields (g/m, net; NaN: no season) at up to four places, and what each place counts for here.
  std::array<const float*, 4> yield_g_per_m{};
  std::array<float, 4> share{};
  float off_g_per_m = 0.0F;                         ///< by how much such a yield may be off
  const float* depth_shift_m = nullptr;             ///< NaN in what follows the last member
  float least_shift_m = 0.0F, most_shift_m = 0.0F;  ///< of them
  /// The current is its mean here times exp(spread z - spread^2 / 2).
  const float* current_z = nullptr;
  float current_spread = 0.0F;
};

/// Each member's verdict on one cell, 1 or 0.
struct MemberVerdicts {
  std::vector<float> open;      ///< the gear hangs free, within what it bears
  std::vector<float> suitable;  ///< open, and its suitability at least the least
  std::size_t suitable_count = 0;
  std::size_t unsure = 0;  ///< members that another yield within `off_g_per_m` would turn over
  bool close = false;      ///< some member is so near the least that only Scorer can tell
};

/// Scorer's verdict on the members of a cell, in float32: a member whose depth, current or score
/// lies within a rounding of a limit may be told wrongly, one whose score lies so near the least is
/// told of. The same bits for any vector width.
class MemberVerdict {
 public:
  /// least: suitability that a site needs.
  MemberVerdict(const Plan& plan, double least);
  ~MemberVerdict();
  MemberVerdict(const MemberVerdict&) = delete;
  MemberVerdict& operator=(const MemberVerdict&) = delete;

  /// Is this a cell of which every member's verdict is known? Else Scorer must say.
  [[nodiscard]] bool can_tell(const CellEvidence& cell) const;
  /// Verdicts on a cell that can_tell(); out has padded_members() places.
  void operator()(const CellEvidence& cell, const MembersOfCell& members,
                  MemberVerdicts& out) const;
  /// Is any of this asked for? Else a member's current makes no difference.
  [[nodiscard]] bool uses_current() const;

  struct Rule;

 private:
  Scorer scorer_;
  std::unique_ptr<const Rule> rule_;
};

}  // namespace tidelot
