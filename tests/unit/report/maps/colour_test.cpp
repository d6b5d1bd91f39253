// SPDX-License-Identifier: Apache-2.0
#include "report/maps/colour.hpp"

#include <catch2/catch.hpp>
#include <cmath>

namespace tidelot::page {
namespace {

using Three = std::array<double, 3>;
using Matrix = std::array<Three, 3>;

constexpr Matrix kPlain{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
// Machado, Oliveira & Fernandes (2009), A physiologically-based model for simulation of color
// vision deficiency, IEEE Trans. Vis. Comput. Graph. 15:1291, doi 10.1109/TVCG.2009.113,
// supplementary table, severity 1.0; on linear RGB. The digits: from memory, each row adding up
// to 1.
constexpr Matrix kProtan{{{0.152286, 1.052583, -0.204868},
                          {0.114503, 0.786281, 0.099216},
                          {-0.003882, -0.048116, 1.051998}}};
constexpr Matrix kDeutan{{{0.367322, 0.860646, -0.227968},
                          {0.280085, 0.672501, 0.047413},
                          {-0.011820, 0.042940, 0.968881}}};
constexpr Matrix kTritan{{{1.255528, -0.076749, -0.178779},
                          {-0.078411, 0.930809, 0.147602},
                          {0.004733, 0.691367, 0.303900}}};

/// IEC 61966-2-1.
double linear(std::uint8_t value) {
  const double v = value / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

/// CIE 1976 L* of a colour seen through a matrix.
double lightness(Rgb colour, const Matrix& eye) {
  const Three light{linear(colour.r), linear(colour.g), linear(colour.b)};
  const Three weight{0.2126, 0.7152, 0.0722};
  double y = 0.0;
  for (std::size_t i = 0; i < 3; ++i) {
    double seen = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
      seen += eye[i][k] * light[k];
    }
    y += weight[i] * std::clamp(seen, 0.0, 1.0);
  }
  return y > 216.0 / 24389.0 ? 116.0 * std::cbrt(y) - 16.0 : 24389.0 / 27.0 * y;
}

struct Named {
  const char* name;
  Ramp ramp;
};

TEST_CASE("each simulated eye sees white as white", "[report]") {
  for (const Matrix& eye : {kPlain, kProtan, kDeutan, kTritan}) {
    CHECK(lightness({255, 255, 255}, eye) == Approx(100.0).margin(0.01));
    CHECK(lightness({128, 128, 128}, eye) == Approx(53.585).margin(0.01));
  }
}

TEST_CASE("a rainbow would not pass", "[report]") {
  CHECK(lightness({255, 255, 0}, kPlain) > lightness({255, 0, 0}, kPlain));
  CHECK(lightness({0, 0, 255}, kPlain) < lightness({255, 0, 0}, kPlain));
}

TEST_CASE("ramps rise or fall in lightness all along, whoever looks", "[report]") {
  for (const Named& each :
       {Named{"batlow", batlow()}, Named{"bamako", bamako()}, Named{"acton", acton()},
        Named{"devon", devon()}, Named{"lapaz", lapaz()}, Named{"davos", davos()},
        Named{"imola", imola()}}) {
    for (const Matrix& eye : {kPlain, kProtan, kDeutan, kTritan}) {
      const bool rises = lightness(each.ramp.back(), eye) > lightness(each.ramp.front(), eye);
      for (int i = 0; i < 48; ++i) {
        const double here = lightness(colour_at(each.ramp, i / 48.0), eye);
        const double next = lightness(colour_at(each.ramp, (i + 1) / 48.0), eye);
        INFO(each.name << " at " << i / 48.0);
        CHECK((rises ? next - here : here - next) > 0.1);
      }
      CHECK(std::abs(lightness(each.ramp.back(), eye) - lightness(each.ramp.front(), eye)) > 55.0);
    }
  }
}

TEST_CASE("beyond its ends a ramp keeps its end", "[report]") {
  CHECK(hex(colour_at(batlow(), -1.0)) == "#011959");
  CHECK(hex(colour_at(batlow(), 2.0)) == "#faccfa");
}

}  // namespace
}  // namespace tidelot::page
