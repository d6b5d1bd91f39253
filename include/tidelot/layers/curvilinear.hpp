// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "tidelot/core/geometry.hpp"

namespace tidelot {

/// A grid whose rows and columns are curves on the earth: a longitude and a latitude for the centre
/// of every pixel. A place is found in the quadrilateral of four neighbouring centres that holds
/// it; in there the position is bilinear in column and row, and its inverse is taken exactly.
/// Straight lines are straight in longitude and latitude.
class CurvilinearGrid {
 public:
  /// cols * rows positions, row by row, degrees; NaN where a pixel has none. At least 2 x 2.
  CurvilinearGrid(int cols, int rows, std::vector<double> lon, std::vector<double> lat);

  /// Pixel coordinates (the centre of the first pixel is 0.5, 0.5) of a place; NaN, NaN where no
  /// quadrilateral holds it. Of several that do, the first in row order.
  [[nodiscard]] XY locate(XY lonlat) const;

  /// The part of cols x rows pixels from (col0, row0) on.
  [[nodiscard]] std::shared_ptr<const CurvilinearGrid> cut(int col0, int row0, int cols,
                                                           int rows) const;

  [[nodiscard]] const std::vector<double>& lon() const { return lon_; }
  [[nodiscard]] const std::vector<double>& lat() const { return lat_; }

 private:
  struct Quad {
    XY at[4];  ///< upper left, upper right, lower left, lower right
  };
  [[nodiscard]] Quad quad(std::size_t index) const;
  [[nodiscard]] std::optional<XY> inside(std::size_t index, XY place) const;
  void index_quads();
  template <typename Visit>
  void each_bucket(const Quad& quad, const Visit& visit) const;
  [[nodiscard]] std::size_t bucket_row(double lat) const;

  int cols_;
  int rows_;
  std::vector<double> lon_;
  std::vector<double> lat_;
  double south_ = 0.0;
  double north_ = 0.0;
  std::size_t bucket_rows_ = 1;
  std::size_t bucket_cols_ = 1;       ///< once round the earth
  std::vector<std::uint32_t> first_;  ///< of each bucket in quads_, and one at the end
  std::vector<std::uint32_t> quads_;
};

}  // namespace tidelot
