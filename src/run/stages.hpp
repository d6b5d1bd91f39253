// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <string>
#include <utility>
#include <vector>

#include "run/record/record.hpp"
#include "tidelot/run.hpp"

namespace tidelot::run {

/// Names the stages, times them and tells the caller how far each is.
class Stages {
 public:
  explicit Stages(const RunOptions& options) : options_(options) {}

  void begin(std::string name, std::size_t total) {
    end();
    name_ = std::move(name);
    total_ = total;
    done_ = 0;
    start_ = Clock::now();
    tell();
  }
  void advance(std::size_t count) {
    done_ += count;
    tell();
  }
  void end() {
    if (!name_.empty()) {
      timings_.push_back({name_, seconds()});
      name_.clear();
    }
  }
  [[nodiscard]] const std::vector<Timing>& timings() const { return timings_; }

 private:
  using Clock = std::chrono::steady_clock;
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(Clock::now() - start_).count();
  }
  void tell() const {
    if (options_.progress) {
      options_.progress({name_, done_, total_, seconds()});
    }
  }

  const RunOptions& options_;
  std::string name_;
  std::size_t total_ = 0;
  std::size_t done_ = 0;
  Clock::time_point start_ = Clock::now();
  std::vector<Timing> timings_;
};

/// Interrupted, when a signal came.
inline void stop_if_asked(const RunOptions& options) {
  if (options.stop_signal != nullptr && options.stop_signal->load() != 0) {
    throw Interrupted(options.stop_signal->load());
  }
}

}  // namespace tidelot::run
