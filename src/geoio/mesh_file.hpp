// SPDX-License-Identifier: Apache-2.0
// Triangular meshes in NetCDF.
#pragma once

#include <optional>
#include <string>

#include "input_file.hpp"
#include "tidelot/layers/opener.hpp"

namespace tidelot::geoio {

/// The plan's variable on the nodes of a triangular mesh: one that follows UGRID (a mesh_topology
/// with face_node_connectivity), or one whose nodes have plain coordinates and whose table of
/// elements is found by its shape and range: whole numbers, three an element, that count the nodes
/// from 0 or from 1. Nothing where the file is no NetCDF, holds no mesh, or the plan's variable is
/// one of a grid. Throws Error(input) where the mesh or the variable is not clear, a face has more
/// than three corners, or a number names no node.
[[nodiscard]] std::optional<Scatter> read_mesh(const InputFile& input, const std::string& crs,
                                               const LonLatBox& box);

}  // namespace tidelot::geoio
