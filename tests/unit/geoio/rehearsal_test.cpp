// SPDX-License-Identifier: Apache-2.0
#include "geoio/rehearsal.hpp"

#include <unistd.h>

#include <atomic>
#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <vector>

#include "tidelot/core/error.hpp"

namespace tidelot::geoio {
namespace {

namespace fs = std::filesystem;

InputFile some_file() {
  InputFile input;
  input.key = "depth";
  input.file.written = "bay.tif";
  return input;
}

std::string refusal(const std::function<void()>& decode, const ChildLimits& limits = {}) {
  try {
    rehearse(some_file(), limits, decode);
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::input);
    return error.what();
  }
  return "";
}

TEST_CASE("a decoder that dies is a refusal that names the file", "[geoio]") {
  for (const int signal : {SIGSEGV, SIGABRT, SIGBUS, SIGFPE}) {
    const std::string said = refusal([signal] {
      std::signal(signal, SIG_DFL);
      ::raise(signal);
    });
    CHECK_THAT(said, Catch::StartsWith("depth: bay.tif: kills the library that reads it (signal " +
                                       std::to_string(signal) + ")"));
  }
}

TEST_CASE("a decoder that never ends is stopped", "[geoio]") {
  const std::string said = refusal(
      [] {
        for (volatile unsigned i = 0;;) {
          i = i + 1;
        }
      },
      {1, 4096});
  CHECK_THAT(said, Catch::StartsWith("depth: bay.tif: takes more than 1 s of processor time"));
}

#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
TEST_CASE("a decoder that asks for all the memory is refused it", "[geoio]") {
  const std::string said = refusal(
      [] {
        std::vector<std::vector<char>> all;
        for (;;) {
          all.emplace_back(std::size_t{64} << 20U);
        }
      },
      {10, 256});
  CHECK_THAT(said, Catch::StartsWith("depth: bay.tif: takes more than 256 MB of memory"));
}
#endif

TEST_CASE("what a decoder throws, and what it finds good, is left to who opens the file next",
          "[geoio]") {
  CHECK(refusal([] {}).empty());
  CHECK(refusal([] { throw std::runtime_error("no such variable"); }).empty());
}

TEST_CASE("a decoder changes nothing: not this process, and no file", "[geoio]") {
  const fs::path path = fs::temp_directory_path() / ("rehearsal-" + std::to_string(::getpid()));
  int here = 1;
  const std::string said = refusal([&] {
    here = 2;
    std::ofstream(path) << "written" << std::flush;
  });
  CHECK(here == 1);
  CHECK(said.empty());
  CHECK((!fs::exists(path) || fs::file_size(path) == 0));
  fs::remove(path);
}

extern "C" void do_nothing(int) {}

TEST_CASE("a run that is asked to stop does not wait for a decoder", "[geoio]") {
  struct sigaction action = {}, before = {};
  action.sa_handler = do_nothing;
  ::sigaction(SIGUSR1, &action, &before);
  const std::atomic<int> stop{SIGTERM};
  const pid_t parent = ::getpid();
  try {
    rehearse(
        some_file(), {},
        [parent] {
          for (;;) {
            ::kill(parent, SIGUSR1);  // a wait that has not begun yet misses the first
            ::usleep(1000);
          }
        },
        &stop);
    FAIL("it waited");
  } catch (const Interrupted& interrupted) {
    CHECK(interrupted.signal() == SIGTERM);
  }
  ::sigaction(SIGUSR1, &before, nullptr);
}

std::vector<std::uint8_t> together(const std::vector<std::function<std::uint8_t()>>& decodes,
                                   int children, const ChildLimits& limits = {}) {
  std::vector<Rehearsal> all;
  for (const auto& decode : decodes) {
    all.push_back({limits, decode});
  }
  return rehearse_together(all, children);
}

TEST_CASE("several decoders tell what each has done, however many children there are", "[geoio]") {
  for (const int children : {1, 2, 5}) {
    CHECK(together({[] { return 1; }, [] { return 2; }, [] { return 1; }}, children) ==
          std::vector<std::uint8_t>{1, 2, 1});
  }
  CHECK(together({}, 2).empty());
}

TEST_CASE("of several decoders one that dies, or throws, is left to be tried alone", "[geoio]") {
  const auto dies = []() -> std::uint8_t {
    std::signal(SIGSEGV, SIG_DFL);
    ::raise(SIGSEGV);
    return 1;
  };
  const auto throws = []() -> std::uint8_t { throw std::runtime_error("damaged"); };
  const auto good = []() -> std::uint8_t { return 1; };
  CHECK(together({throws, good}, 1) == std::vector<std::uint8_t>{0, 1});
  CHECK(together({good, dies, good}, 1) == std::vector<std::uint8_t>{1, 0, 0});
  const auto two = together({dies, good, good}, 2);  // the other child goes on
  CHECK(two == std::vector<std::uint8_t>{0, 1, 1});
}

TEST_CASE("of several decoders one that never ends is stopped", "[geoio]") {
  const auto endless = []() -> std::uint8_t {
    for (volatile unsigned i = 0;;) {
      i = i + 1;
    }
  };
  CHECK(together({endless}, 1, {1, 4096}) == std::vector<std::uint8_t>{0});
}

TEST_CASE("a large file may take longer", "[geoio]") {
  const fs::path path = fs::temp_directory_path() / ("large-" + std::to_string(::getpid()));
  std::ofstream(path) << "x";
  fs::resize_file(path, 40'000'000);  // sparse
  InputFile input = some_file();
  input.path = path.string();
  CHECK(limits_for(input).cpu_s == 30);
  fs::remove(path);
  CHECK(limits_for(input).cpu_s == 10);
}

}  // namespace
}  // namespace tidelot::geoio
