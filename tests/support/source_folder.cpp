// SPDX-License-Identifier: Apache-2.0
#include "support/source_folder.hpp"

std::filesystem::path tidelot::test::source_folder() { return TIDELOT_SOURCE_DIR; }
