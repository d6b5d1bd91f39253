// SPDX-License-Identifier: Apache-2.0
// Scouts a plan through the library and prints its first site: consumer PLAN OUT
#include <cstdio>
#include <exception>

#include "tidelot/core/error.hpp"
#include "tidelot/core/version.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/run.hpp"

namespace {

void scout(const char* plan_path, const char* out) {
  tidelot::RunOptions options;
  options.out = out;
  options.threads = 1;
  const tidelot::RunSummary summary = tidelot::scout(tidelot::read_plan(plan_path), options);
  std::printf("tidelot %s: %zu sites", tidelot::version().data(), summary.sites.ranked.size());
  if (!summary.sites.ranked.empty()) {
    std::printf(", the first %.4f ha", summary.sites.ranked.front().area_ha);
  }
  std::printf("\n");
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::fprintf(stderr, "usage: consumer PLAN OUT\n");
    return 2;
  }
  try {
    scout(argv[1], argv[2]);
  } catch (const tidelot::Error& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return static_cast<int>(error.fault());
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}
