// SPDX-License-Identifier: Apache-2.0
#include "geoio/proj_context.hpp"

#include <catch2/catch.hpp>
#include <new>

using namespace tidelot::geoio;

TEST_CASE("PROJ's words for too little memory are told from those for what it does not know",
          "[geoio]") {
  CHECK(is_short_of_memory("proj_normalize_for_visualization: std::bad_alloc"));
  CHECK_FALSE(is_short_of_memory("proj_create: crs not found: EPSG:std::bad_alloc"));
  CHECK_FALSE(is_short_of_memory("proj_create: Error 1027 (Invalid value for an argument)"));
  CHECK_FALSE(is_short_of_memory("std::bad_alloc"));
}

TEST_CASE("a system that PROJ does not know is no shortage of memory", "[geoio]") {
  const ProjContext context;
  CHECK(ProjHandle<PJ>(proj_create(context.get(), "EPSG:999999")) == nullptr);
  CHECK_NOTHROW(context.throw_if_short_of_memory());
}
