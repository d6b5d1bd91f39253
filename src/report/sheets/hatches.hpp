// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

/// Hatches in black on white, told apart by their form and by how much ink they take, so that a
/// photocopy keeps them.
namespace tidelot::sheet {

/// What the hatches of every sheet stand for.
inline constexpr std::string_view kLand = "url(#land)";
inline constexpr std::string_view kUnknown = "url(#unknown)";
inline constexpr std::string_view kClosed = "url(#closed)";
inline constexpr std::string_view kBed = "url(#bed)";

/// Steps of a measure, more ink for more.
inline constexpr std::size_t kSteps = 5;
[[nodiscard]] std::string_view step_fill(std::size_t step);
/// Classes without an order: so many differ, then they come again.
inline constexpr std::size_t kClasses = 8;
[[nodiscard]] std::string_view class_fill(std::size_t each);
/// Dashes of a class's outline.
[[nodiscard]] std::string_view class_dashes(std::size_t each);

/// The patterns, once a page.
[[nodiscard]] std::string pattern_definitions();

}  // namespace tidelot::sheet
