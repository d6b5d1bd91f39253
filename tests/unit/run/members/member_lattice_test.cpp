// SPDX-License-Identifier: Apache-2.0
#include "run/members/member_lattice.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "run/members/lattice_nodes.hpp"
#include "run/members/member_seasons.hpp"
#include "support/member_bay.hpp"
#include "tidelot/core/draws.hpp"

using namespace tidelot;

namespace {

struct Told {
  std::vector<run::SpreadFigures> figures;
  std::vector<int> times;
  run::LatticeCount count;
};

Told told(const member_bay::Water& water, const run::Members& members, run::LayerDraws& draws,
          double tolerance) {
  Told out;
  out.figures.resize(water.size());
  out.times.resize(water.size(), 0);
  out.count = run::tell_members(water.ground(), members, draws, tolerance,
                                [&](const run::MembersHere& here) {
                                  out.figures[here.cell] = here.figures;
                                  ++out.times[here.cell];
                                  return true;
                                });
  return out;
}

std::vector<run::SpreadFigures> grown(const member_bay::Water& water, const run::Members& members,
                                      run::LayerDraws& draws) {
  std::vector<std::uint32_t> all(water.size());
  std::iota(all.begin(), all.end(), 0U);
  const run::MemberGround ground = water.ground();
  run::MemberRows rows(ground, members, draws);
  rows.grow(all);
  std::vector<run::SpreadFigures> out;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    out.push_back(rows.figures(row));
  }
  return out;
}

/// The largest difference as a share of the crop, over all cells.
double worst(const std::vector<run::SpreadFigures>& laid,
             const std::vector<run::SpreadFigures>& exact, const Stocked& stocked) {
  double off = 0.0;
  for (std::size_t cell = 0; cell < laid.size(); ++cell) {
    const auto crop = run::crop_of(exact[cell], stocked);
    for (std::size_t i = 0; i < laid[cell].size(); ++i) {
      off = std::max(off, std::abs(static_cast<double>(laid[cell][i] - exact[cell][i])) /
                              static_cast<double>(crop[i / 3]));
    }
  }
  return off;
}

}  // namespace

TEST_CASE("members between nodes are within the tolerance in every cell, whatever the water",
          "[run]") {
  constexpr double kTolerance = 0.02;
  struct Kind {
    const char* name;
    double noise;    // of a node
    int node_cells;  // between nodes of noise
    double most_grown, least_grown;
  };
  const auto kind =
      GENERATE(Kind{"smooth", 0.0, 1, 0.3, 0.0}, Kind{"noise at every 50th", 1.0, 50, 1.3, 0.01},
               Kind{"little noise at every 16th", 0.2, 16, 1.3, 0.01},
               Kind{"noise in every cell", 1.0, 1, 1.3, 0.99});
  INFO(kind.name);
  const Plan plan = member_bay::plan(200);
  const member_bay::Water water(plan, 100, kind.noise, kind.node_cells);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  const Told laid = told(water, members, draws, kTolerance);
  CHECK(std::all_of(laid.times.begin(), laid.times.end(), [](int n) { return n == 1; }));
  const double off = worst(laid.figures, grown(water, members, draws), water.ground().stocked);
  const auto cells = static_cast<double>(water.size());
  const double seasons =
      static_cast<double>(laid.count.grown) + static_cast<double>(laid.count.probes) / 200.0;
  WARN(kind.name << ": off by " << off << ", grown " << laid.count.grown << ", exact "
                 << laid.count.exact << " of " << laid.count.cells << ", probes "
                 << laid.count.probes);
  CHECK(off <= kTolerance);
  CHECK(seasons <= kind.most_grown * cells);
  CHECK(seasons >= kind.least_grown * cells);
}

TEST_CASE("a tolerance of nothing grows every cell", "[run]") {
  const Plan plan = member_bay::plan(8);
  const member_bay::Water water(plan, 20, 0.2);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  const Told laid = told(water, members, draws, 0.0);
  CHECK(laid.count.exact == water.size());
  CHECK(laid.figures == grown(water, members, draws));
}

TEST_CASE("a cell whose members do not do between nodes is grown", "[run]") {
  const Plan plan = member_bay::plan(32);
  const member_bay::Water water(plan, 48, 0.0);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  std::vector<float> off(water.size(), -1.0F);
  const auto count =
      run::tell_members(water.ground(), members, draws, 0.01, [&](const run::MembersHere& here) {
        off[here.cell] = here.off_g_per_m;
        return here.cell != 1000 || here.off_g_per_m == 0.0F;
      });
  CHECK(off[1000] == 0.0F);
  CHECK(off[1001] > 0.0F);
  CHECK(count.exact < water.size() / 10);
}

TEST_CASE("land is no lattice's loss, and unknown water is not grown", "[run]") {
  const Plan plan = member_bay::plan(16);
  const member_bay::Water water(plan, 70, 0.0);
  const run::Members members(plan, run::uncertain_inputs(plan, {}));
  run::LayerDraws draws(plan.uncertainty, members.inputs());
  run::MemberGround ground = water.ground();
  const auto unknown = [](std::uint32_t cell) { return cell % 70 < 10; };
  for (std::uint32_t cell = 0; cell < water.size(); ++cell) {
    ground.wanted[cell] = !unknown(cell) && cell % 3 == 0 ? 1 : 0;
  }
  ground.known = [&](std::uint32_t cell) { return !unknown(cell); };
  const auto inner = ground.water;
  bool asked_unknown = false;
  ground.water = [&](std::span<const std::uint32_t> cells) {
    asked_unknown = asked_unknown || std::any_of(cells.begin(), cells.end(), unknown);
    return inner(cells);
  };
  std::vector<int> times(water.size(), 0);
  const auto count = run::tell_members(ground, members, draws, 0.01, [&](const auto& here) {
    ++times[here.cell];
    return true;
  });
  CHECK_FALSE(asked_unknown);
  for (std::uint32_t cell = 0; cell < water.size(); ++cell) {
    CHECK(times[cell] == ground.wanted[cell]);
  }
  CHECK(count.grown < count.cells);
}
