// SPDX-License-Identifier: Apache-2.0
#include "plan/profile_form.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numbers>

#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

constexpr std::array kAlgaConstants{
    KnownConstant{"mu_max_per_day", Sign::not_negative},
    KnownConstant{"t_min", Sign::any},
    KnownConstant{"t_opt", Sign::any},
    KnownConstant{"t_max", Sign::any},
    KnownConstant{"light_ik", Sign::positive},
    KnownConstant{"light_ref_h", Sign::positive},
    KnownConstant{"light_ref", Sign::positive},
    KnownConstant{"vmax_nh4", Sign::not_negative},
    KnownConstant{"k_nh4", Sign::positive},
    KnownConstant{"vmax_no3", Sign::not_negative},
    KnownConstant{"k_no3", Sign::positive},
    KnownConstant{"k_inhibition", Sign::positive},
    KnownConstant{"q_min", Sign::positive},
    KnownConstant{"q_max", Sign::positive},
    KnownConstant{"q_start", Sign::positive},
    KnownConstant{"respiration_20", Sign::not_negative},
    KnownConstant{"q10", Sign::positive},
    KnownConstant{"loss_per_day", Sign::not_negative},
    KnownConstant{"dry_to_fresh", Sign::positive},
    KnownConstant{"w_max", Sign::positive},
    KnownConstant{"shade_m2_per_g", Sign::not_negative},
    KnownConstant{"canopy_width_m", Sign::positive},
    KnownConstant{"canopy_height_m", Sign::positive},
    KnownConstant{"u0", Sign::positive},
    KnownConstant{"branch_m", Sign::positive, true},
    KnownConstant{"surface_m2_per_g", Sign::positive, true},
    KnownConstant{"outplant_temperature", Sign::any},
    KnownConstant{"last_haul_temperature", Sign::any},
};

constexpr std::array kKelpConstants{
    KnownConstant{"fronds_per_m", Sign::positive},
    KnownConstant{"start_area", Sign::positive},
    KnownConstant{"start_n", Sign::positive},
    KnownConstant{"start_c", Sign::positive},
    KnownConstant{"a0", Sign::positive},
    KnownConstant{"m1", Sign::not_negative},
    KnownConstant{"m2", Sign::not_negative},
    KnownConstant{"a1", Sign::not_negative},
    KnownConstant{"a2", Sign::not_negative},
    KnownConstant{"epsilon", Sign::not_negative},
    KnownConstant{"alpha", Sign::positive},
    KnownConstant{"i_sat", Sign::positive},
    KnownConstant{"p1", Sign::positive},
    KnownConstant{"t_p1", Sign::positive},
    KnownConstant{"t_ap", Sign::not_negative},
    KnownConstant{"t_apl", Sign::not_negative},
    KnownConstant{"t_pl", Sign::positive},
    KnownConstant{"t_aph", Sign::not_negative},
    KnownConstant{"t_ph", Sign::positive},
    KnownConstant{"r1", Sign::not_negative},
    KnownConstant{"t_r1", Sign::positive},
    KnownConstant{"t_ar", Sign::not_negative},
    KnownConstant{"gamma", Sign::not_negative},
    KnownConstant{"c_min", Sign::positive},
    KnownConstant{"c_struct", Sign::positive},
    KnownConstant{"n_min", Sign::positive},
    KnownConstant{"n_max", Sign::positive},
    KnownConstant{"n_struct", Sign::not_negative},
    KnownConstant{"j_max", Sign::not_negative},
    KnownConstant{"k_x", Sign::positive},
    KnownConstant{"c1", Sign::not_negative},
    KnownConstant{"c2", Sign::positive},
    KnownConstant{"c3", Sign::not_negative},
    KnownConstant{"blade_m", Sign::positive, true},
    KnownConstant{"k_a", Sign::positive},
    KnownConstant{"k_dw", Sign::positive},
    KnownConstant{"k_c", Sign::not_negative},
    KnownConstant{"k_n", Sign::not_negative},
    KnownConstant{"shade_m2_per_g", Sign::not_negative},
    KnownConstant{"canopy_width_m", Sign::positive},
    KnownConstant{"canopy_height_m", Sign::positive},
    KnownConstant{"outplant_temperature", Sign::any},
    KnownConstant{"last_haul_temperature", Sign::any},
};

constexpr std::array kForms{
    ProfileForm{GrowthModel::fragmenting_alga, "fragmenting-alga", "weight", "cut-back", false,
                kAlgaConstants},
    ProfileForm{GrowthModel::kelp_frond, "kelp-frond", "fronds", "whole-frond", true,
                kKelpConstants},
};

std::string alga_contradiction(const Crop& crop) {
  const double t_min = crop.at("t_min");
  const double t_opt = crop.at("t_opt");
  const double t_max = crop.at("t_max");
  if (!(t_opt < t_max && t_opt > (t_min + t_max) / 2.0)) {
    return fmt::format("t_opt: {} must lie above the middle of t_min {} and t_max {}, below t_max",
                       shortest(t_opt), shortest(t_min), shortest(t_max));
  }
  if (!(crop.at("q_min") < crop.at("q_max"))) {
    return "q_min: must be below q_max";
  }
  if (!(crop.at("q_min") <= crop.at("q_start") && crop.at("q_start") <= crop.at("q_max"))) {
    return "q_start: must lie between q_min and q_max";
  }
  if (crop.has("branch_m") && crop.at("branch_m") > 0.01) {
    return "branch_m: must be 0.01 or less: the width of one branch";
  }
  return "";
}

std::string kelp_contradiction(const Crop& crop) {
  if (!(crop.at("n_min") < crop.at("n_max"))) {
    return "n_min: must be below n_max";
  }
  if (!(crop.at("n_min") <= crop.at("start_n") && crop.at("start_n") <= crop.at("n_max"))) {
    return "start_n: must lie between n_min and n_max";
  }
  if (!(crop.at("c_min") <= crop.at("start_c"))) {
    return "start_c: must not be below c_min";
  }
  // Photosynthesis with its inhibition cannot be more than alpha i_sat/e at i_sat.
  const double most = crop.at("alpha") * crop.at("i_sat") / std::numbers::e;
  if (!(crop.at("p1") < most)) {
    return fmt::format("p1: {} must be below alpha i_sat/e = {}", shortest(crop.at("p1")),
                       shortest(most));
  }
  return "";
}

}  // namespace

std::span<const ProfileForm> profile_forms() { return kForms; }

const ProfileForm& profile_form(GrowthModel model) {
  return *std::find_if(kForms.begin(), kForms.end(),
                       [&](const ProfileForm& form) { return form.model == model; });
}

std::string contradiction(const Crop& crop) {
  return crop.model == GrowthModel::kelp_frond ? kelp_contradiction(crop)
                                               : alga_contradiction(crop);
}

}  // namespace tidelot
