// SPDX-License-Identifier: Apache-2.0
#include "tidelot/core/units.hpp"

#include <algorithm>
#include <array>
#include <span>

#include "tidelot/core/text.hpp"

namespace tidelot {
namespace {

/// One spelling of a unit. Spellings are compared without blanks and in lower case; kelvin's "K" is
/// the only unit whose case is looked at (a file's "k" is not believed to be one).
struct Spelling {
  std::string_view text;
  Conversion to_canonical;
};

// 1 ft = 0.3048 m exactly; U.S. survey foot 1200/3937 m; 1 fathom 1.8288 m; 1 knot 0.514444 m/s
// (1852/3600). BIPM SI brochure, NIST SP 811. g/mol from the standard atomic weights (IUPAC).
constexpr double kNitrogen = 14.007;
constexpr double kNitrate = 62.005;
constexpr double kNitrite = 46.006;
constexpr double kAmmonium = 18.039;
constexpr double kAmmonia = 17.031;
constexpr double kKnot = 1852.0 / 3600.0;

constexpr std::array kLengths{
    Spelling{"m", {}},
    Spelling{"metre", {}},
    Spelling{"metres", {}},
    Spelling{"meter", {}},
    Spelling{"meters", {}},
    Spelling{"cm", {0.01, 0}},
    Spelling{"ft", {0.3048, 0}},
    Spelling{"foot", {0.3048, 0}},
    Spelling{"feet", {0.3048, 0}},
    Spelling{"us-ft", {1200.0 / 3937.0, 0}},
    Spelling{"ftus", {1200.0 / 3937.0, 0}},
    Spelling{"ussurveyfoot", {1200.0 / 3937.0, 0}},
    Spelling{"fathom", {1.8288, 0}},
    Spelling{"fathoms", {1.8288, 0}},
};
constexpr std::array kTemperatures{
    Spelling{"degc", {}},
    Spelling{"c", {}},
    Spelling{"celsius", {}},
    Spelling{"degree_c", {}},
    Spelling{"degrees_c", {}},
    Spelling{"degreec", {}},
    Spelling{"degreesc", {}},
    Spelling{"degree_celsius", {}},
    Spelling{"degrees_celsius", {}},
    Spelling{"degreecelsius", {}},
    Spelling{"°c", {}},
    Spelling{"K", {1, -273.15}},
    Spelling{"kelvin", {1, -273.15}},
    Spelling{"degf", {5.0 / 9.0, -160.0 / 9.0}},
    Spelling{"fahrenheit", {5.0 / 9.0, -160.0 / 9.0}},
    Spelling{"°f", {5.0 / 9.0, -160.0 / 9.0}},
};
constexpr std::array kSalinities{
    Spelling{"psu", {}},    Spelling{"pss", {}},
    Spelling{"pss-78", {}}, Spelling{"practicalsalinity", {}},
    Spelling{"1", {}},      Spelling{"1e-3", {}},
    Spelling{"ppt", {}},    Spelling{"psth", {}},
    Spelling{"‰", {}},      Spelling{"0.001", {}},
};
constexpr std::array kAttenuations{
    Spelling{"1/m", {}},
    Spelling{"m-1", {}},
    Spelling{"m^-1", {}},
    Spelling{"m**-1", {}},
    Spelling{"1/ft", {1.0 / 0.3048, 0}},
};
constexpr std::array kTurbidities{Spelling{"ntu", {}}, Spelling{"1", {}}};
constexpr std::array kNitrogens{
    Spelling{"umol/l", {}},
    Spelling{"µmol/l", {}},
    Spelling{"μmol/l", {}},
    Spelling{"um", {}},
    Spelling{"umoll-1", {}},
    Spelling{"umol.l-1", {}},
    Spelling{"umoll^-1", {}},
    Spelling{"mmol/m3", {}},
    Spelling{"mmolm-3", {}},
    Spelling{"mmol.m-3", {}},
    Spelling{"mmol/m^3", {}},
    Spelling{"molm-3", {1000, 0}},
    Spelling{"mol.m-3", {1000, 0}},
    Spelling{"mol/m3", {1000, 0}},
    Spelling{"mg/l", {1000.0 / kNitrogen, 0}},
    Spelling{"mg/lasn", {1000.0 / kNitrogen, 0}},
    Spelling{"mgn/l", {1000.0 / kNitrogen, 0}},
    Spelling{"mgl-1", {1000.0 / kNitrogen, 0}},
    Spelling{"g/m3", {1000.0 / kNitrogen, 0}},
    Spelling{"gm-3", {1000.0 / kNitrogen, 0}},
    Spelling{"ug/l", {1.0 / kNitrogen, 0}},
    Spelling{"ug/lasn", {1.0 / kNitrogen, 0}},
    Spelling{"mg/m3", {1.0 / kNitrogen, 0}},
    Spelling{"mgm-3", {1.0 / kNitrogen, 0}},
    Spelling{"kgm-3", {1e6 / kNitrogen, 0}},
    Spelling{"mg/lasno3", {1000.0 / kNitrate, 0}},
    Spelling{"mgno3/l", {1000.0 / kNitrate, 0}},
    Spelling{"ug/lasno3", {1.0 / kNitrate, 0}},
    Spelling{"mg/lasno2", {1000.0 / kNitrite, 0}},
    Spelling{"ug/lasno2", {1.0 / kNitrite, 0}},
    Spelling{"mg/lasnh4", {1000.0 / kAmmonium, 0}},
    Spelling{"mgnh4/l", {1000.0 / kAmmonium, 0}},
    Spelling{"ug/lasnh4", {1.0 / kAmmonium, 0}},
    Spelling{"mg/lasnh3", {1000.0 / kAmmonia, 0}},
    Spelling{"ug/lasnh3", {1.0 / kAmmonia, 0}},
    Spelling{"umol/kg", {1, 0, true}},
    Spelling{"µmol/kg", {1, 0, true}},
    Spelling{"μmol/kg", {1, 0, true}},
    Spelling{"umolkg-1", {1, 0, true}},
    Spelling{"umol.kg-1", {1, 0, true}},
    Spelling{"mmol/kg", {1e3, 0, true}},
    Spelling{"mol/kg", {1e6, 0, true}},
    Spelling{"molkg-1", {1e6, 0, true}},
    Spelling{"mol.kg-1", {1e6, 0, true}},
};
constexpr std::array kSpeeds{
    Spelling{"m/s", {}},          Spelling{"ms-1", {}},          Spelling{"m.s-1", {}},
    Spelling{"ms^-1", {}},        Spelling{"meter/second", {}},  Spelling{"cm/s", {0.01, 0}},
    Spelling{"cms-1", {0.01, 0}}, Spelling{"kn", {kKnot, 0}},    Spelling{"kt", {kKnot, 0}},
    Spelling{"knot", {kKnot, 0}}, Spelling{"knots", {kKnot, 0}}, Spelling{"ft/s", {0.3048, 0}},
};
constexpr std::array kRadiations{
    Spelling{"mjm-2d-1", {}},       Spelling{"mj/m2/d", {}},         Spelling{"mj/m2/day", {}},
    Spelling{"mjm-2day-1", {}},     Spelling{"mj/m^2/d", {}},        Spelling{"mj.m-2.d-1", {}},
    Spelling{"w/m2", {0.0864, 0}},  Spelling{"wm-2", {0.0864, 0}},   Spelling{"w/m^2", {0.0864, 0}},
    Spelling{"w.m-2", {0.0864, 0}}, Spelling{"w/m**2", {0.0864, 0}},
};

std::span<const Spelling> spellings(Quantity quantity) {
  switch (quantity) {
    case Quantity::depth:
    case Quantity::secchi:
      return kLengths;
    case Quantity::temperature:
      return kTemperatures;
    case Quantity::salinity:
      return kSalinities;
    case Quantity::attenuation:
      return kAttenuations;
    case Quantity::turbidity:
      return kTurbidities;
    case Quantity::nitrogen:
      return kNitrogens;
    case Quantity::current:
      return kSpeeds;
    case Quantity::radiation:
      return kRadiations;
  }
  return {};
}

std::string squeezed(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ' && c != '\t') {
      out += c;
    }
  }
  return out;
}

}  // namespace

std::optional<Conversion> conversion(Quantity quantity, std::string_view unit) {
  const std::string exact = squeezed(unit);
  const std::string plain = lower_ascii(exact);
  for (const Spelling& s : spellings(quantity)) {
    if (s.text == exact || s.text == plain) {
      return s.to_canonical;
    }
  }
  return std::nullopt;
}

std::string_view canonical_unit(Quantity quantity) {
  switch (quantity) {
    case Quantity::depth:
    case Quantity::secchi:
      return "m";
    case Quantity::temperature:
      return "degC";
    case Quantity::salinity:
      return "practical salinity";
    case Quantity::attenuation:
      return "1/m";
    case Quantity::turbidity:
      return "NTU";
    case Quantity::nitrogen:
      return "umol/L";
    case Quantity::current:
      return "m/s";
    case Quantity::radiation:
      return "MJ m-2 d-1";
  }
  return "";
}

std::vector<std::string> known_units(Quantity quantity) {
  switch (quantity) {
    case Quantity::depth:
    case Quantity::secchi:
      return {"m", "cm", "ft", "us-ft", "fathom"};
    case Quantity::temperature:
      return {"degC", "K", "degF"};
    case Quantity::salinity:
      return {"psu", "ppt", "1", "1e-3"};
    case Quantity::attenuation:
      return {"1/m", "1/ft"};
    case Quantity::turbidity:
      return {"NTU"};
    case Quantity::nitrogen:
      return {"umol/L",    "mmol/m3",     "mol m-3",     "mg/L",    "ug/L",
              "mg/L as N", "mg/L as NO3", "mg/L as NH4", "umol/kg", "mol/kg"};
    case Quantity::current:
      return {"m/s", "cm/s", "knot", "ft/s"};
    case Quantity::radiation:
      return {"MJ m-2 d-1", "W m-2"};
  }
  return {};
}

PlausibleRange plausible_range(Quantity quantity) {
  switch (quantity) {
    case Quantity::depth:
      return {-9000.0, 12000.0};
    case Quantity::secchi:
      return {0.0, 80.0};
    case Quantity::temperature:
      return {-3.0, 45.0};
    case Quantity::salinity:
      return {0.0, 60.0};
    case Quantity::attenuation:
      return {0.0, 50.0};
    case Quantity::turbidity:
      return {0.0, 4000.0};
    case Quantity::nitrogen:
      return {0.0, 2000.0};
    case Quantity::current:
      return {0.0, 10.0};
    case Quantity::radiation:
      return {0.0, 45.0};
  }
  return {};
}

std::string_view name(Quantity quantity) {
  switch (quantity) {
    case Quantity::depth:
      return "depth";
    case Quantity::secchi:
      return "Secchi depth";
    case Quantity::temperature:
      return "temperature";
    case Quantity::salinity:
      return "salinity";
    case Quantity::attenuation:
      return "light attenuation";
    case Quantity::turbidity:
      return "turbidity";
    case Quantity::nitrogen:
      return "nitrogen";
    case Quantity::current:
      return "current";
    case Quantity::radiation:
      return "radiation";
  }
  return "";
}

}  // namespace tidelot
