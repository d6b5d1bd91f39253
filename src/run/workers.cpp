// SPDX-License-Identifier: Apache-2.0
#include "run/workers.hpp"

#include <algorithm>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

/// The failure to report: the one of the lowest item, so that it does not depend on timing when
/// several items fail alike.
class FirstFailure {
 public:
  void note(std::size_t item, std::exception_ptr failure) {
    const std::scoped_lock lock(mutex_);
    if (!failure_ || item < item_) {
      failure_ = std::move(failure);
      item_ = item;
    }
    failed_ = true;
  }
  [[nodiscard]] bool any() const { return failed_; }
  void rethrow() const {
    if (failure_) {
      std::rethrow_exception(failure_);
    }
  }

 private:
  std::mutex mutex_;
  std::atomic<bool> failed_ = false;
  std::size_t item_ = 0;
  std::exception_ptr failure_;
};

int signal_of(const std::atomic<int>* stop_signal) {
  return stop_signal == nullptr ? 0 : stop_signal->load();
}

/// Threads for the workers 1 to `wish`; fewer where the system gives no more: the results are the
/// same.
std::vector<std::jthread> started(int wish, const std::function<void(int)>& work) {
  std::vector<std::jthread> threads;
  try {
    for (int worker = 1; worker <= wish; ++worker) {
      threads.emplace_back(work, worker);
    }
  } catch (const std::system_error&) {
    return threads;
  }
  return threads;
}

}  // namespace

void for_each(std::size_t items, int workers, const std::atomic<int>* stop_signal,
              const std::function<void(std::size_t, int)>& task,
              const std::function<void(std::size_t)>& done) {
  std::atomic<std::size_t> next = 0;
  std::mutex done_mutex;
  FirstFailure failure;
  const auto work = [&](int worker) {
    while (!failure.any() && signal_of(stop_signal) == 0) {
      const std::size_t item = next++;
      if (item >= items) {
        return;
      }
      try {
        task(item, worker);
        if (done) {
          const std::scoped_lock lock(done_mutex);
          done(item);
        }
      } catch (...) {
        failure.note(item, std::current_exception());
      }
    }
  };
  {
    const std::vector<std::jthread> threads = started(workers - 1, work);
    work(0);
  }
  failure.rethrow();
  if (const int signal = signal_of(stop_signal); signal != 0) {
    throw Interrupted(signal);
  }
}

int workers_for(int wish) {
  return wish > 0 ? wish : std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

}  // namespace tidelot::run
