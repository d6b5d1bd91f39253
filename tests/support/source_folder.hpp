// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>

namespace tidelot::test {

/// The project's own folder. It stands in one object file, so that all others are the same bytes
/// wherever the project was built and a compiler cache finds them.
[[nodiscard]] std::filesystem::path source_folder();

}  // namespace tidelot::test
