// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "support/temp_folder.hpp"

namespace tidelot::test {

/// What an outside program said.
struct ToolAnswer {
  int status = -1;   ///< as std::system gives it; a missing program is not 0
  std::string text;  ///< stdout and stderr
};

/// Runs a command of the shell with `input` on its stdin. Only fixed words and paths of the test's
/// own folder go into `command`.
inline ToolAnswer run_tool(const TempFolder& folder, const std::string& command,
                           const std::string& input = "") {
  const std::filesystem::path in = folder / "tool-input";
  const std::filesystem::path out = folder / "tool-output";
  std::ofstream(in, std::ios::binary) << input;
  const std::string line = command + " < '" + in.string() + "' > '" + out.string() + "' 2>&1";
  ToolAnswer answer;
  answer.status = std::system(line.c_str());
  answer.text = bytes_of(out);
  return answer;
}

}  // namespace tidelot::test
