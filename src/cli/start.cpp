// SPDX-License-Identifier: Apache-2.0
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "cli/commands.hpp"
#include "cli/print.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/plan/plan.hpp"

namespace tidelot::cli {
namespace {

[[noreturn]] void fail(const std::filesystem::path& what) {
  throw Error(Fault::output,
              fmt::format("{}: cannot be written: {}", what.string(), std::strerror(errno)));
}

/// Creates the file; one that exists is never written over.
void write_new(const std::filesystem::path& path, const std::string& text) {
  const int file = open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
  if (file < 0) {
    if (errno == EEXIST) {
      throw Error(Fault::output,
                  path.string() + ": exists already; choose another folder, or remove it first");
    }
    fail(path);
  }
  const bool written = write(file, text.data(), text.size()) == static_cast<ssize_t>(text.size());
  if (!written || fsync(file) != 0 || close(file) != 0) {
    unlink(path.c_str());
    fail(path);
  }
}

}  // namespace

int start(const std::string& folder) {
  std::error_code problem;
  std::filesystem::create_directories(folder, problem);
  if (problem) {
    throw Error(Fault::output, fmt::format("{}: cannot be made: {}", folder, problem.message()));
  }
  const std::filesystem::path plan = std::filesystem::path(folder) / "plan.toml";
  write_new(plan, starter_plan());
  print(
      fmt::format("Wrote {}. Put your layers beside it, change what the comments say, then:\n"
                  "  tidelot check {}\n  tidelot scout {}\n",
                  plan.string(), plan.string(), plan.string()));
  return 0;
}

}  // namespace tidelot::cli
