// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "tidelot/core/crop.hpp"

namespace tidelot {

/// What a constant may be, whatever its own range says.
enum class Sign { any, not_negative, positive };
struct KnownConstant {
  const char* name;
  Sign sign;
  bool only_mass_transfer = false;  ///< may be left out: asked for by crop.boundary_layer alone
};

/// What a profile of one growth model holds.
struct ProfileForm {
  GrowthModel model;
  std::string_view word;      ///< as `model` says it
  std::string_view stocking;  ///< as `stocking` says it
  std::string_view harvest;   ///< as `harvest` says it
  bool has_temperature;       ///< a [temperature] curve
  std::span<const KnownConstant> constants;
};

/// The forms, one a growth model.
[[nodiscard]] std::span<const ProfileForm> profile_forms();
[[nodiscard]] const ProfileForm& profile_form(GrowthModel model);

/// Where the constants of a profile contradict each other, beginning with a constant's name; ""
/// when they do not. Every constant of the form is there.
[[nodiscard]] std::string contradiction(const Crop& crop);

}  // namespace tidelot
