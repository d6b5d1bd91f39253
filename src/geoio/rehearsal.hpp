// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "input_file.hpp"

namespace tidelot::geoio {

/// What a child process may use to read a file.
struct ChildLimits {
  unsigned cpu_s = 10;           ///< processor time
  std::size_t memory_mb = 4096;  ///< address space beyond what this process has
};

/// For a file of so many bytes: 10 s, and one more for every 2 MB; 4 GB. Judgement: a library
/// decodes 20 MB and more in a second, and keeps a block at a time.
[[nodiscard]] ChildLimits limits_for(const InputFile& input);

/// Runs `decode` in a child process that may write no file, and waits for its end. Libraries that
/// decode files from strangers can be made to crash, to go round in circles or to ask for all the
/// memory there is (two of 3,200 NetCDF files with flipped bits kill HDF5 1.10.8 when opened): then
/// the child dies, and this throws Error(input) that names the file. What `decode` throws is not
/// told: the process that opens the file next meets it again, and says it.
///
/// The caller has no other thread. stop: not 0 when this process shall end, Interrupted then.
void rehearse(const InputFile& input, const ChildLimits& limits,
              const std::function<void()>& decode, const std::atomic<int>* stop = nullptr);

/// One of several files that are decoded side by side.
struct Rehearsal {
  ChildLimits limits;
  std::function<std::uint8_t()> decode;  ///< what of it was decoded, as its caller counts; not 0
};

/// Runs every `decode` in one of a few child processes, so many at once: a child takes one after
/// the other. What each gave, in the order of `all`; 0 where it did not come to its end, or threw.
/// Nothing is refused here: what is 0 is for `rehearse`, alone, which finds out why. So what is
/// said does not hang on which child took what, or when.
///
/// Like `rehearse` otherwise; the children share the memory that one has there.
[[nodiscard]] std::vector<std::uint8_t> rehearse_together(std::span<const Rehearsal> all,
                                                          int children,
                                                          const std::atomic<int>* stop = nullptr);

}  // namespace tidelot::geoio
