// SPDX-License-Identifier: Apache-2.0
// The processes of an MPI job. Nothing here names a type of MPI, and nothing of MPI is called
// unless the program was built with it and a launcher started it. Only the main thread may call.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace tidelot::run {

/// Which of how many processes this is.
struct Place {
  int rank = 0;
  int ranks = 1;
};

/// Joins the job, once, and tells the place in it; alone where no launcher started the program.
/// Error(plan) where one started several and the program was built without MPI.
[[nodiscard]] Place join_ranks();
/// The place that join_ranks told; alone before it and after leave_ranks.
[[nodiscard]] Place place() noexcept;
/// Leaves the job when all have come so far; each goes on alone.
void leave_ranks();
/// Ends the whole job with this status where it has several processes that have not left.
void end_ranks(int status) noexcept;

/// What a message is.
enum class Note : int {
  ask = 1,   ///< "COUNT IDENTITY": so many tiles, of this run
  tile = 2,  ///< a number: the tile to do
  none = 3,  ///< no tile is left
  done = 4,  ///< a record (tile_record.hpp), and another tile is asked for
};
struct Message {
  int from = 0;
  Note note = Note::none;
  std::string text;
};
/// Returns when `text` may change; that of a few bytes does not wait for the other side.
void send(int to, Note note, std::string_view text);
/// The next message, if one is there.
[[nodiscard]] std::optional<Message> receive();

}  // namespace tidelot::run
