// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <cstddef>
#include <functional>

namespace tidelot::run {

/// Runs task(item, worker) for every item in 0..items-1 on `workers` threads. Items are handed out
/// in order. The first failure by item number is thrown again when all have stopped; a signal in
/// stop_signal ends the loop with Interrupted. done(item) is called after each item, one at a time.
void for_each(std::size_t items, int workers, const std::atomic<int>* stop_signal,
              const std::function<void(std::size_t item, int worker)>& task,
              const std::function<void(std::size_t item)>& done = {});

/// The number of workers for a wish (0: one a core).
[[nodiscard]] int workers_for(int wish);

}  // namespace tidelot::run
