// SPDX-License-Identifier: Apache-2.0
#include "run/tiles/tile_loop.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <future>
#include <optional>
#include <sstream>
#include <thread>
#include <utility>

#include "run/resume/ranks.hpp"
#include "run/tiles/grid_parts.hpp"
#include "run/workers.hpp"
#include "tidelot/core/error.hpp"

namespace tidelot::run {
namespace {

/// Between two looks for messages: short beside a tile, long beside a look.
constexpr std::chrono::microseconds kPause(200);
/// A worker of a part gives its memory back after so many tiles: neighbours share pages.
constexpr int kTilesBetween = 16;

template <typename T>
bool is_ready(const std::future<T>& future) {
  return future.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

int workers_in(const TileLoop& loop) {
  return std::min(workers_for(loop.options.threads),
                  std::max(1, static_cast<int>(loop.groups.size())));
}

/// The tiles that are finished, in the maps and in the ledger. Threads may call at once, each for
/// tiles of its own.
class Board {
 public:
  Board(const TileLoop& loop, Maps& maps, TileLedger& ledger)
      : loop_(loop), maps_(maps), ledger_(ledger), counted_(loop.groups.size()) {}

  /// Takes over what an earlier run finished; false where it did not.
  bool keep(std::size_t item) {
    const Tile& tile = loop_.groups[item].area;
    auto kept =
        ledger_.goes_on() ? ledger_.kept(item, maps_.bytes_of(loop_.grid(), tile)) : std::nullopt;
    if (kept) {
      counted_[item] = std::move(*kept);
      kept_cells_ += tile.size();
      cells_ += tile.size();
    }
    return kept.has_value();
  }
  void run(std::size_t item, Worker& worker) {
    const Tile& tile = loop_.groups[item].area;
    counted_[item] = run_group(loop_.groups[item], loop_.job, worker, maps_);
    ledger_.add(item, maps_.bytes_of(loop_.grid(), tile), counted_[item]);
    cells_ += tile.size();
  }
  /// Puts in what another process has done.
  void put(TileRecord record) {
    const Tile& tile = loop_.groups[record.tile].area;
    maps_.put(loop_.grid(), tile, record.cells);
    ledger_.add(record.tile, record.cells, record.counted);
    counted_[record.tile] = std::move(record.counted);
    cells_ += tile.size();
  }
  [[nodiscard]] std::size_t cells() const { return cells_; }
  [[nodiscard]] std::size_t bytes_of(std::size_t item) const {
    return maps_.bytes_a_cell() * loop_.groups[item].area.size();
  }
  [[nodiscard]] Scored scored() const {
    Scored out{{MemberCells(loop_.members()), {}}, kept_cells_};
    for (const GroupCounts& each : counted_) {
      out.counted.add(each);
    }
    return out;
  }

 private:
  const TileLoop& loop_;
  Maps& maps_;
  TileLedger& ledger_;
  std::vector<GroupCounts> counted_;
  std::atomic<std::size_t> kept_cells_ = 0, cells_ = 0;
};

/// The first process of a job: its threads and the other processes take tiles from one row.
class Sharing {
 public:
  Sharing(const TileLoop& loop, Board& board, int helpers)
      : loop_(loop), board_(board), to_come_(helpers) {}

  /// Returns when every tile is in the board and every process knows that none is left.
  void run(std::vector<Worker>& workers) {
    std::future<void> own = std::async(std::launch::async, [&] {
      for_each(loop_.groups.size(), static_cast<int>(workers.size()), loop_.options.stop_signal,
               [&](std::size_t, int worker) {
                 if (const auto item = take()) {
                   board_.run(*item, workers[static_cast<std::size_t>(worker)]);
                 }
               });
    });
    try {
      serve(own);
    } catch (...) {
      next_ = loop_.groups.size();  // the threads find nothing more to do
      throw;
    }
  }

 private:
  std::optional<std::size_t> take() {
    for (std::size_t item = next_++; item < loop_.groups.size(); item = next_++) {
      if (!board_.keep(item)) {
        return item;
      }
    }
    return std::nullopt;
  }

  void serve(std::future<void>& own) {
    std::size_t told = 0;
    bool own_over = false;
    while (to_come_ > 0 || away_ > 0 || !own_over) {
      while (const auto message = receive()) {
        answer(*message);
      }
      const std::size_t cells = board_.cells();
      loop_.stages.advance(cells - std::exchange(told, cells));
      if (!own_over && is_ready(own)) {
        own.get();
        own_over = true;
      }
      stop_if_asked(loop_.options);
      std::this_thread::sleep_for(kPause);
    }
  }

  void answer(const Message& message) {
    int wanted = 1;
    if (message.note == Note::ask) {
      std::string identity;
      std::istringstream(message.text) >> wanted >> identity;
      if (identity != loop_.identity) {
        throw Error(Fault::input,
                    fmt::format("process {} of the job reads another plan or other inputs than the "
                                "first, or is another version; give all the same files",
                                message.from));
      }
      --to_come_;
    } else {
      put(message);
      --away_;
    }
    for (; wanted > 0; --wanted) {
      const auto item = take();
      away_ += item ? 1 : 0;
      send(message.from, item ? Note::tile : Note::none, item ? std::to_string(*item) : "");
    }
  }

  void put(const Message& message) {
    auto record = read_record(message.text);
    if (!record || record->tile >= loop_.groups.size() ||
        record->cells.size() != board_.bytes_of(record->tile)) {
      throw Error(Fault::input,
                  fmt::format("process {} of the job sent a tile that is not whole; run it again "
                              "with --resume",
                              message.from));
    }
    board_.put(std::move(*record));
  }

  const TileLoop& loop_;
  Board& board_;
  int to_come_;           ///< processes that have not asked yet
  std::size_t away_ = 0;  ///< tiles handed out and not back
  std::atomic<std::size_t> next_ = 0;
};

/// Tiles computed into memory that is given back, for processes that do not keep the maps.
class Bench {
 public:
  explicit Bench(const TileLoop& loop)
      : loop_(loop), maps_(Maps::scratch(loop.grid().size(), loop.choice)) {}

  [[nodiscard]] std::string run(std::size_t item, Worker& worker) {
    const Tile& tile = loop_.groups[item].area;
    const GroupCounts counted = run_group(loop_.groups[item], loop_.job, worker, maps_);
    const std::vector<std::byte> cells = maps_.bytes_of(loop_.grid(), tile);
    if (++since_ == kTilesBetween) {
      maps_.forget();
      since_ = 0;
    }
    return record_of({item, counted, cells});
  }

 private:
  const TileLoop& loop_;
  Maps maps_;
  int since_ = 0;
};

std::vector<Bench> benches_of(const TileLoop& loop, int count) {
  std::vector<Bench> out;
  out.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    out.emplace_back(loop);
  }
  return out;
}

/// From one thread to another, in order, until it is closed.
template <typename T>
class Queue {
 public:
  void push(T item) {
    const std::scoped_lock lock(mutex_);
    items_.push_back(std::move(item));
    changed_.notify_one();
  }
  void close() {
    const std::scoped_lock lock(mutex_);
    closed_ = true;
    changed_.notify_all();
  }
  /// Waits for one; none when the queue is closed.
  std::optional<T> wait() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [&] { return closed_ || !items_.empty(); });
    return closed_ ? std::nullopt : first();
  }
  std::optional<T> poll() {
    const std::scoped_lock lock(mutex_);
    return items_.empty() ? std::nullopt : first();
  }

 private:
  std::optional<T> first() {
    std::optional<T> out(std::move(items_.front()));
    items_.pop_front();
    return out;
  }
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<T> items_;
  bool closed_ = false;
};

/// The main thread of a helper: asks, hands on to the threads, sends what they did.
void pass_on(const TileLoop& loop, int threads, Queue<std::size_t>& to_do, Queue<std::string>& done,
             const std::future<void>& own) {
  // One more than threads, so that none waits for the way there and back.
  int answers = threads + 1;
  std::size_t in_hand = 0;
  send(0, Note::ask, fmt::format("{} {}", answers, loop.identity));
  while ((answers > 0 || in_hand > 0) && !is_ready(own)) {
    while (const auto message = receive()) {
      --answers;
      if (message->note == Note::tile) {
        ++in_hand;
        to_do.push(std::stoul(message->text));
      }
    }
    while (const auto record = done.poll()) {
      send(0, Note::done, *record);
      --in_hand;
      ++answers;
    }
    std::this_thread::sleep_for(kPause);
  }
}

}  // namespace

Scored score_tiles(const TileLoop& loop, Maps& maps, TileLedger& ledger) {
  std::vector<Worker> workers = workers_of(loop.plan, loop.area, loop.job, workers_in(loop));
  Board board(loop, maps, ledger);
  loop.stages.begin("growing and scoring", loop.grid().size());
  if (place().ranks > 1) {
    Sharing(loop, board, place().ranks - 1).run(workers);
    leave_ranks();
    return board.scored();
  }
  for_each(
      loop.groups.size(), static_cast<int>(workers.size()), loop.options.stop_signal,
      [&](std::size_t item, int worker) {
        if (!board.keep(item)) {
          board.run(item, workers[static_cast<std::size_t>(worker)]);
        }
      },
      [&](std::size_t item) { loop.stages.advance(loop.groups[item].area.size()); });
  return board.scored();
}

void help_with_tiles(const TileLoop& loop) {
  std::vector<Worker> workers = workers_of(loop.plan, loop.area, loop.job, workers_in(loop));
  const int threads = static_cast<int>(workers.size());
  std::vector<Bench> benches = benches_of(loop, threads);
  Queue<std::size_t> to_do;
  Queue<std::string> done;
  std::future<void> own = std::async(std::launch::async, [&] {
    for_each(loop.groups.size(), threads, nullptr, [&](std::size_t, int worker) {
      try {
        if (const auto item = to_do.wait()) {
          const auto w = static_cast<std::size_t>(worker);
          done.push(benches[w].run(*item, workers[w]));
        }
      } catch (...) {
        to_do.close();  // the other threads wait there
        throw;
      }
    });
  });
  pass_on(loop, threads, to_do, done, own);
  to_do.close();
  own.get();
}

std::size_t score_part(const TileLoop& loop, const Part& part, PartFile& file) {
  std::vector<std::size_t> mine;
  std::size_t cells = 0;
  for (std::size_t item = 0; item < loop.groups.size(); ++item) {
    if (holds(part, item)) {
      mine.push_back(item);
      cells += loop.groups[item].area.size();
    }
  }
  std::vector<Worker> workers = workers_of(loop.plan, loop.area, loop.job, workers_in(loop));
  std::vector<Bench> benches = benches_of(loop, static_cast<int>(workers.size()));
  loop.stages.begin("growing and scoring", cells);
  for_each(
      mine.size(), static_cast<int>(workers.size()), loop.options.stop_signal,
      [&](std::size_t i, int worker) {
        const auto w = static_cast<std::size_t>(worker);
        file.add(benches[w].run(mine[i], workers[w]));
      },
      [&](std::size_t i) { loop.stages.advance(loop.groups[mine[i]].area.size()); });
  loop.stages.end();
  return mine.size();
}

}  // namespace tidelot::run
