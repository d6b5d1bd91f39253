// SPDX-License-Identifier: Apache-2.0
#include "mesh_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "tidelot/core/text.hpp"

namespace tidelot::geoio {
namespace {

constexpr std::size_t kMostCorners = 16;  // of a face; judgement: more is no table of elements

bool is_among(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_longitude(const MeshArray& a) {
  return is_among(a.array->GetUnit(), {"degrees_east", "degree_east", "degrees_E", "degree_E"}) ||
         a.text("standard_name") == "longitude";
}

bool is_latitude(const MeshArray& a) {
  return is_among(a.array->GetUnit(), {"degrees_north", "degree_north", "degrees_N", "degree_N"}) ||
         a.text("standard_name") == "latitude";
}

bool is_easting(const MeshArray& a) {
  return a.text("standard_name") == "projection_x_coordinate" ||
         is_among(lower_ascii(a.name), {"x", "easting"});
}

bool is_northing(const MeshArray& a) {
  return a.text("standard_name") == "projection_y_coordinate" ||
         is_among(lower_ascii(a.name), {"y", "northing"});
}

/// Two variables that place the same nodes.
struct Pair {
  const MeshArray* x = nullptr;
  const MeshArray* y = nullptr;
  bool degrees = false;
};

template <typename IsX, typename IsY>
void add_pairs(const std::vector<const MeshArray*>& lines, bool degrees, const IsX& is_x,
               const IsY& is_y, std::vector<Pair>& pairs) {
  for (const MeshArray* x : lines) {
    for (const MeshArray* y : lines) {
      if (is_x(*x) && is_y(*y) && x->dimensions == y->dimensions) {
        pairs.push_back({x, y, degrees});
      }
    }
  }
}

/// Degrees before metres.
std::vector<Pair> pairs_of(const std::vector<const MeshArray*>& lines) {
  std::vector<Pair> pairs;
  add_pairs(lines, true, is_longitude, is_latitude, pairs);
  add_pairs(lines, false, is_easting, is_northing, pairs);
  return pairs;
}

std::vector<const MeshArray*> lines_of(const MeshArrays& arrays) {
  std::vector<const MeshArray*> lines;
  for (const MeshArray& a : arrays.all()) {
    if (a.dimensions.size() == 1) {
      lines.push_back(&a);
    }
  }
  return lines;
}

std::optional<MeshParts> by_topology(const InputFile& input, const MeshArrays& arrays,
                                     const MeshArray& topology) {
  const std::string table = topology.text("face_node_connectivity");
  if (table.empty()) {
    return std::nullopt;  // a network of lines
  }
  std::vector<const MeshArray*> lines;
  std::istringstream names(topology.text("node_coordinates"));
  for (std::string name; names >> name;) {
    if (const MeshArray* found = arrays.find(name);
        found != nullptr && found->dimensions.size() == 1) {
      lines.push_back(found);
    }
  }
  const auto pairs = pairs_of(lines);
  const MeshArray* const elements = arrays.find(table);
  if (pairs.empty() || elements == nullptr || elements->dimensions.size() != 2) {
    throw input.error(
        fmt::format("its mesh_topology {} names node coordinates or a "
                    "face_node_connectivity that are not there",
                    foreign_text(topology.name)));
  }
  return MeshParts{pairs[0].x, pairs[0].y, pairs[0].degrees, elements};
}

/// Could the numbers of a table be nodes? Three different ones in each row, none beyond the last.
bool fits(const MeshArrays& arrays, const MeshArray& table, std::size_t nodes) {
  const std::vector<double> numbers = arrays.values(table);
  const bool rows = table.sizes[1] == 3;
  const std::size_t faces = table.size() / 3;
  for (std::size_t i = 0; i < faces; ++i) {
    const auto at = [&](std::size_t k) { return numbers[rows ? 3 * i + k : k * faces + i]; };
    const auto good = [&](double v) { return v >= 0.0 && v <= static_cast<double>(nodes); };
    if (!good(at(0)) || !good(at(1)) || !good(at(2)) || at(0) == at(1) || at(1) == at(2) ||
        at(2) == at(0)) {
      return false;
    }
  }
  return faces > 0;
}

std::optional<MeshParts> by_shape(const InputFile& input, const MeshArrays& arrays) {
  std::vector<MeshParts> found;
  const auto pairs = pairs_of(lines_of(arrays));
  for (const MeshArray& table : arrays.all()) {
    const bool shaped = table.is_whole() && table.dimensions.size() == 2 &&
                        (table.sizes[0] == 3 || table.sizes[1] == 3);
    for (const Pair& pair : shaped ? pairs : std::vector<Pair>{}) {
      const bool taken = !found.empty() && found.back().elements == &table;
      if (!taken && fits(arrays, table, pair.x->size())) {
        found.push_back({pair.x, pair.y, pair.degrees, &table});
      }
    }
  }
  if (found.size() > 1) {
    throw input.error(
        fmt::format("holds more than one table that could be its elements ({}, {}); "
                    "make a file with one",
                    foreign_text(found[0].elements->name), foreign_text(found[1].elements->name)));
  }
  return found.empty() ? std::nullopt : std::optional(found[0]);
}

/// One row a face, whichever way round the table is.
struct Table {
  std::vector<double> numbers;
  std::size_t faces = 0;
  std::size_t corners = 0;
  bool rows = true;
  [[nodiscard]] double at(std::size_t face, std::size_t corner) const {
    return numbers[rows ? face * corners + corner : corner * faces + face];
  }
};

Table table_of(const InputFile& input, const MeshArrays& arrays, const MeshArray& elements) {
  Table table;
  table.rows =
      elements.sizes[1] == 3 || (elements.sizes[0] != 3 && elements.sizes[1] < elements.sizes[0]);
  table.corners = elements.sizes[table.rows ? 1 : 0];
  table.faces = elements.sizes[table.rows ? 0 : 1];
  if (table.corners < 3 || table.corners > kMostCorners) {
    throw input.error(fmt::format("its table of elements {} is no table of triangles ({} x {})",
                                  foreign_text(elements.name), elements.sizes[0],
                                  elements.sizes[1]));
  }
  table.numbers = arrays.values(elements);
  for (std::size_t i = 0; i < table.faces; ++i) {
    std::size_t corners = 0;
    for (std::size_t k = 0; k < table.corners; ++k) {
      corners += std::isnan(table.at(i, k)) ? 0 : 1;
    }
    if (corners != 3 || std::isnan(table.at(i, 0) + table.at(i, 1) + table.at(i, 2))) {
      throw input.error(
          fmt::format("face {} of its mesh has {} corners; only triangles are read, "
                      "so split it first",
                      i + 1, corners));
    }
  }
  return table;
}

/// The number of the first node, and on whose word.
std::pair<double, std::string> first_node(const InputFile& input, const MeshArray& elements,
                                          const Table& table, std::size_t nodes) {
  double low = static_cast<double>(nodes);
  double high = 0.0;
  for (const double v : table.numbers) {
    low = std::fmin(low, v);
    high = std::fmax(high, v);
  }
  const double stated = elements.number("start_index");
  const double first = !std::isnan(stated) ? stated : low == 0.0 ? 0.0 : 1.0;
  if (low < first || high >= first + static_cast<double>(nodes)) {
    throw input.error(
        fmt::format("its elements name nodes {} to {}, and there are {} of them "
                    "counted from {}; the mesh is damaged",
                    shortest(low), shortest(high), nodes, shortest(first)));
  }
  const bool open = std::isnan(stated) && low > 0.0 && high < static_cast<double>(nodes);
  if (open) {
    throw input.error(
        fmt::format("its elements name nodes {} to {} of {}, which could be counted "
                    "from 0 or from 1; give {} the attribute start_index",
                    shortest(low), shortest(high), nodes, foreign_text(elements.name)));
  }
  return {first, fmt::format("from {}, {}", shortest(first),
                             std::isnan(stated) ? "by the range of its numbers"
                                                : "as its start_index says")};
}

}  // namespace

std::optional<MeshParts> mesh_parts(const InputFile& input, const MeshArrays& arrays) {
  std::vector<MeshParts> stated;
  for (const MeshArray& array : arrays.all()) {
    if (array.text("cf_role") == "mesh_topology") {
      if (auto parts = by_topology(input, arrays, array)) {
        stated.push_back(*parts);
      }
    }
  }
  if (stated.size() > 1) {
    throw input.error(fmt::format("holds {} meshes; make a file with one", stated.size()));
  }
  return stated.empty() ? by_shape(input, arrays) : std::optional(stated[0]);
}

MeshTriangles mesh_triangles(const InputFile& input, const MeshArrays& arrays,
                             const MeshArray& elements, std::size_t nodes) {
  const Table table = table_of(input, arrays, elements);
  const auto [first, counted] = first_node(input, elements, table, nodes);
  MeshTriangles mesh;
  mesh.counted = counted;
  mesh.corners.reserve(table.faces);
  for (std::size_t i = 0; i < table.faces; ++i) {
    std::array<std::uint32_t, 3> corners{};
    for (std::size_t k = 0; k < 3; ++k) {
      corners[k] = static_cast<std::uint32_t>(table.at(i, k) - first);
    }
    mesh.corners.push_back(corners);
  }
  return mesh;
}

}  // namespace tidelot::geoio
