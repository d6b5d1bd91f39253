// SPDX-License-Identifier: Apache-2.0
#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>
#include <cstdio>
#include <locale>
#include <stdexcept>

/// Takes the environment's locale, as a program around the library may: nothing that reads or
/// writes numbers may follow it. tests/locale runs with one that has decimal commas.
int main(int argc, char** argv) {
  try {
    std::locale::global(std::locale(""));
  } catch (const std::runtime_error& error) {
    std::fprintf(stderr, "the environment's locale is not installed: %s\n", error.what());
  }
  return Catch::Session().run(argc, argv);
}
