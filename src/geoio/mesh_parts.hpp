// SPDX-License-Identifier: Apache-2.0
// Which variables of a NetCDF file make a triangular mesh.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "mesh_arrays.hpp"

namespace tidelot::geoio {

/// A mesh's variables.
struct MeshParts {
  const MeshArray* x = nullptr;  ///< of the nodes
  const MeshArray* y = nullptr;
  bool degrees = false;                 ///< x and y are longitudes and latitudes
  const MeshArray* elements = nullptr;  ///< the table of corners
  [[nodiscard]] const std::string& nodes() const { return x->dimensions[0]; }
};

/// The file's one mesh; nothing where it holds none. Throws Error(input) where it holds several
/// that could be meant, or a mesh_topology whose variables are missing.
[[nodiscard]] std::optional<MeshParts> mesh_parts(const InputFile& input, const MeshArrays& arrays);

/// The corners of a mesh's triangles.
struct MeshTriangles {
  std::vector<std::array<std::uint32_t, 3>> corners;  ///< nodes, counted from 0
  std::string counted;                                ///< "from 1, by the range of its numbers"
};

/// Reads the table whichever way round it is. nodes: how many there are. Throws Error(input) for a
/// face with more or fewer than three corners, a number that names no node, or a table that could
/// count from 0 as well as from 1.
[[nodiscard]] MeshTriangles mesh_triangles(const InputFile& input, const MeshArrays& arrays,
                                           const MeshArray& elements, std::size_t nodes);

}  // namespace tidelot::geoio
