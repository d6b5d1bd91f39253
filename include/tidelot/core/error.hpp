// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <stdexcept>
#include <string>

namespace tidelot {

/// Whose turn it is to act when a run cannot go on; the value is the exit status.
enum class Fault : int {
  plan = 2,    ///< the command line or the plan is wrong
  input = 3,   ///< an input file is missing, unreadable or does not fit
  output = 4,  ///< the results could not be written
};

/// The one exception of the library. what() is one line: which file or key, what is wrong, what to
/// do. Whatever a file brought into it is made safe by one_line (core/text.hpp).
class Error : public std::runtime_error {
 public:
  Error(Fault fault, const std::string& line);
  [[nodiscard]] Fault fault() const noexcept { return fault_; }

 private:
  Fault fault_;
};

/// A run that a signal stopped. Nothing is left behind; the exit status is 128 + signal.
class Interrupted : public std::runtime_error {
 public:
  explicit Interrupted(int signal) : std::runtime_error("interrupted"), signal_(signal) {}
  [[nodiscard]] int signal() const noexcept { return signal_; }

 private:
  int signal_;
};

}  // namespace tidelot
