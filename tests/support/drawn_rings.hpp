// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <rapidcheck.h>

#include <cstdlib>
#include <utility>

#include "tidelot/core/geometry.hpp"
#include "tidelot/core/grid.hpp"

namespace tidelot::test {

inline constexpr double kCell_m = 8.0;
// Coordinates are whole numbers of 1/4 m, so that a shift by whole cells is exact.
inline const Grid kGrid{4096.0, 8192.0, kCell_m, 24, 20, "EPSG:32626"};

/// Of the whole range in every case: by itself the range grows from its low end, case by case.
template <typename T>
rc::Gen<T> whole(T low, T end) {
  return rc::gen::resize(rc::kNominalSize, rc::gen::inRange<T>(low, end));
}

inline rc::Gen<double> quarter_metres(int low, int high) {
  return rc::gen::map(whole(4 * low, 4 * high + 1), [](int n) { return n / 4.0; });
}

inline rc::Gen<XY> places() {
  return rc::gen::build<XY>(rc::gen::set(&XY::x, quarter_metres(4000, 4400)),
                            rc::gen::set(&XY::y, quarter_metres(7900, 8300)));
}

/// A ring, closed; it may cross itself.
inline rc::Gen<Path> rings() {
  return rc::gen::map(rc::gen::resize(8, rc::gen::nonEmpty(rc::gen::container<Path>(places()))),
                      [](Path path) {
                        path.push_back(path.front());
                        return path;
                      });
}

/// The same cases in every run, but where RC_PARAMS says otherwise.
template <typename Property>
bool holds(Property&& property) {
  static_cast<void>(::setenv("RC_PARAMS", "seed=20261127 max_success=1000", 0));
  return rc::check(std::forward<Property>(property));
}

}  // namespace tidelot::test
