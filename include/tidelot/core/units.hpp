// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tidelot {

// US customary units by their definitions (international yard and pound agreement, 1959).
inline constexpr double kFootM = 0.3048;
inline constexpr double kMileM = 1609.344;
inline constexpr double kAcreHa = 0.40468564224;
inline constexpr double kPoundKg = 0.45359237;
inline constexpr double kShortTonT = 0.90718474;

/// What a layer measures. Each has one canonical unit, in which every value inside is kept.
enum class Quantity {
  depth,        ///< m, positive down
  temperature,  ///< degC
  salinity,     ///< practical salinity
  attenuation,  ///< 1/m, diffuse attenuation of PAR (Kd)
  secchi,       ///< m, Secchi depth
  turbidity,    ///< NTU
  nitrogen,     ///< umol/L of dissolved inorganic nitrogen
  current,      ///< m/s
  radiation,    ///< MJ m-2 d-1, global radiation at the surface
};

/// canonical = value * scale + offset, and of amounts per mass of seawater (umol/kg) once more
/// times the water's density in kg/L.
struct Conversion {
  double scale = 1.0;
  double offset = 0.0;
  bool per_mass = false;
  friend bool operator==(const Conversion&, const Conversion&) = default;
  [[nodiscard]] double operator()(double value) const { return value * scale + offset; }
};

/// Conversion of a unit's spelling ("degC", "K", "ft", "mg/L as N") to the canonical unit of a
/// quantity; empty when the unit does not fit the quantity. Case and blanks do not matter, except
/// where case tells units apart ("K" is kelvin).
[[nodiscard]] std::optional<Conversion> conversion(Quantity quantity, std::string_view unit);

/// The canonical unit's spelling, as printed.
[[nodiscard]] std::string_view canonical_unit(Quantity quantity);

/// The spellings understood, for messages.
[[nodiscard]] std::vector<std::string> known_units(Quantity quantity);

/// Values outside are not believed: the unit or the file is wrong (docs/science/units.md).
struct PlausibleRange {
  double low;
  double high;
};
[[nodiscard]] PlausibleRange plausible_range(Quantity quantity);

/// "temperature", "salinity", ...: as in the plan and in messages.
[[nodiscard]] std::string_view name(Quantity quantity);

}  // namespace tidelot
