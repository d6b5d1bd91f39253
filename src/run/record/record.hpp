// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "run/area.hpp"
#include "run/members/member_lattice.hpp"
#include "run/members/uncertain_inputs.hpp"
#include "run/resume/digest.hpp"
#include "tidelot/report/bay.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

/// How long each stage took.
struct Timing {
  std::string stage;
  double seconds = 0.0;
};

/// What a run held, bytes.
struct HeldMemory {
  std::size_t predicted = 0;           ///< the most, told before it started
  std::optional<std::size_t> ceiling;  ///< that it was to keep to
  std::size_t peak = 0;                ///< the most so far
};

/// Everything that run.json tells.
struct Record {
  const Plan* plan = nullptr;
  const Area* area = nullptr;
  const RunSummary* summary = nullptr;
  std::vector<std::pair<FileRef, Digest>> inputs;
  std::vector<std::string> outputs;
  std::vector<Timing> timings;
  int threads = 1;
  HeldMemory memory;
  const UncertainInputs* uncertain = nullptr;  ///< null: no members
  LatticeCount lattice;                        ///< of the members
  std::string identity;                        ///< see identity_of
  Bay bay;
};

/// run.json: the resolved plan with what was given and what was assumed, versions, hashes of the
/// inputs, grid, counts, warnings, timings. The only output that depends on clock and machine.
[[nodiscard]] std::string run_json(const Record& record);

}  // namespace tidelot::run
