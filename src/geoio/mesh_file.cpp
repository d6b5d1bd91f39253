// SPDX-License-Identifier: Apache-2.0
#include "mesh_file.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "degrees.hpp"
#include "mesh_parts.hpp"
#include "netcdf_axes.hpp"
#include "projector.hpp"
#include "stated_reference.hpp"
#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

/// Nodes further from the area than this are not projected: its system does not reach there, and
/// no triangle near a coast is so long (judgement).
constexpr double kFar = 10.0;  // degrees

/// Variables on the nodes that may hold what is wanted.
std::vector<const MeshArray*> node_variables(const MeshArrays& arrays, const MeshParts& mesh) {
  std::vector<const MeshArray*> found;
  for (const MeshArray& a : arrays.all()) {
    const bool coordinate = a.array->GetUnit().starts_with("degree") || a.name == mesh.x->name ||
                            a.name == mesh.y->name;
    const bool number = a.array->GetDataType().GetClass() == GEDTC_NUMERIC;
    if (a.dimensions.size() == 1 && a.dimensions[0] == mesh.nodes() && number && !coordinate) {
      found.push_back(&a);
    }
  }
  return found;
}

[[noreturn]] void refuse_variable(const InputFile& input,
                                  const std::vector<const MeshArray*>& known) {
  std::vector<std::string> names;
  std::transform(known.begin(), known.end(), std::back_inserter(names),
                 [](const MeshArray* a) { return a->name; });
  const std::string& wanted = input.file.variable;
  const std::string near = nearest_word(wanted, names);
  const std::string list =
      names.empty() ? "none" : foreign_text(fmt::format("{}", fmt::join(names, ", ")));
  throw input.error(
      wanted.empty()
          ? fmt::format("is a mesh with {} variables on its nodes; set variable to one of: {}",
                        names.size(), list)
          : fmt::format("its mesh has no variable \"{}\" on the nodes{}; it has: {}",
                        foreign_text(wanted),
                        near.empty() ? "" : fmt::format(" (\"{}\"?)", foreign_text(near)), list));
}

/// The plan's variable; without one the only one on the nodes.
const MeshArray& chosen(const InputFile& input, const MeshArrays& arrays, const MeshParts& mesh) {
  const auto known = node_variables(arrays, mesh);
  const std::string& wanted = input.file.variable;
  const auto found = std::find_if(known.begin(), known.end(),
                                  [&](const MeshArray* a) { return a->name == wanted; });
  if (found != known.end()) {
    return **found;
  }
  if (!wanted.empty() || known.size() != 1) {
    refuse_variable(input, known);
  }
  return *known[0];
}

/// The system that a variable's grid mapping spells out; WGS 84 where the nodes are in degrees and
/// nothing is said.
StatedReference reference_of(const InputFile& input, const MeshArrays& arrays,
                             const MeshParts& mesh, const MeshArray& variable) {
  const MeshArray* const mapping = arrays.find(variable.text("grid_mapping"));
  std::string wkt = mapping != nullptr ? mapping->text("crs_wkt") : "";
  wkt = wkt.empty() && mapping != nullptr ? mapping->text("spatial_ref") : wkt;
  OGRSpatialReference own;
  const bool stated = !wkt.empty() && own.importFromWkt(wkt.c_str()) == OGRERR_NONE;
  if (auto reference = stated_reference(input, stated ? &own : nullptr)) {
    return *std::move(reference);
  }
  if (!mesh.degrees) {
    throw input.error(
        "does not say the reference system of its mesh; write crs = \"EPSG:n\" in "
        "the plan");
  }
  return {make_reference("EPSG:4326", input.key),
          "WGS 84 assumed: nodes in degrees and no grid mapping in the file"};
}

void place_nodes(const InputFile& input, const MeshArrays& arrays, const MeshParts& mesh,
                 const std::string& own, const std::string& crs, const LonLatBox& box,
                 Scatter& scatter) {
  const std::vector<double> x = arrays.values(*mesh.x);
  const std::vector<double> y = arrays.values(*mesh.y);
  scatter.places.resize(x.size());
  for (std::size_t i = 0; i < x.size(); ++i) {
    scatter.places[i] = {x[i], y[i]};
  }
  std::vector<XY> degrees = scatter.places;
  make_projector(own, "EPSG:4326", input.key, box, input.allow_ballpark)->forward(degrees);
  const auto to_grid = make_projector(own, crs, input.key, box, input.allow_ballpark);
  to_grid->forward(scatter.places);
  scatter.operation = to_grid->operation();
  constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
  const LonLatBox near{box.west - kFar, box.south - kFar, box.east + kFar, box.north + kFar};
  DegreeBox covered;
  for (std::size_t i = 0; i < degrees.size(); ++i) {
    covered.add(degrees[i]);
    if (!holds(near, degrees[i])) {
      scatter.places[i] = {kNan, kNan};
    }
  }
  scatter.box = covered.box();
}

}  // namespace

std::optional<Scatter> read_mesh(const InputFile& input, const std::string& crs,
                                 const LonLatBox& box) {
  const MeshArrays arrays(input);
  const MeshArray* const wanted = arrays.find(input.file.variable);
  if (arrays.all().empty() || (wanted != nullptr && wanted->dimensions.size() > 1)) {
    return std::nullopt;
  }
  const auto mesh = mesh_parts(input, arrays);
  if (!mesh) {
    return std::nullopt;
  }
  const MeshArray& variable = chosen(input, arrays, *mesh);
  const StatedReference stated = reference_of(input, arrays, *mesh, variable);
  Scatter scatter;
  scatter.kind = Scatter::Kind::mesh;
  place_nodes(input, arrays, *mesh, reference_text(stated.reference), crs, box, scatter);
  scatter.values = arrays.values(variable);
  MeshTriangles triangles = mesh_triangles(input, arrays, *mesh->elements, scatter.places.size());
  scatter.triangles = std::move(triangles.corners);
  scatter.what = fmt::format("netCDF mesh, {} nodes, {} triangles", scatter.places.size(),
                             scatter.triangles.size());
  scatter.of =
      fmt::format("variable {}; nodes counted {}", foreign_text(variable.name), triangles.counted);
  scatter.crs_name = reference_name(stated.reference);
  scatter.crs_basis = stated.basis;
  scatter.unit = foreign_text(variable.array->GetUnit());
  scatter.standard_name = variable.text("standard_name");
  scatter.positive = positive_of(variable.text("positive"), scatter.standard_name);
  return scatter;
}

}  // namespace tidelot::geoio
