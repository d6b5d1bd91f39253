// SPDX-License-Identifier: Apache-2.0
#include "run/resume/ranks.hpp"

#include <algorithm>
#include <cstdlib>

#include "tidelot/core/error.hpp"

#ifdef TIDELOT_MPI
#define OMPI_SKIP_MPICXX 1
#include <mpi.h>
#endif

namespace tidelot::run {
namespace {

Place here;

}  // namespace

Place place() noexcept { return here; }

#ifdef TIDELOT_MPI

Place join_ranks() {
  const auto names = {"PMIX_RANK", "OMPI_COMM_WORLD_SIZE", "PMI_RANK"};
  if (std::none_of(names.begin(), names.end(),
                   [](const char* name) { return std::getenv(name) != nullptr; })) {
    return here;
  }
  int got = 0;
  MPI_Init_thread(nullptr, nullptr, MPI_THREAD_FUNNELED, &got);
  MPI_Comm_rank(MPI_COMM_WORLD, &here.rank);
  MPI_Comm_size(MPI_COMM_WORLD, &here.ranks);
  if (here.ranks == 1) {
    MPI_Finalize();
  }
  return here;
}

void leave_ranks() {
  if (here.ranks > 1) {
    MPI_Finalize();
    here = {};
  }
}

void end_ranks(int status) noexcept {
  if (here.ranks > 1) {
    MPI_Abort(MPI_COMM_WORLD, status);
  }
}

void send(int to, Note note, std::string_view text) {
  MPI_Send(text.data(), static_cast<int>(text.size()), MPI_BYTE, to, static_cast<int>(note),
           MPI_COMM_WORLD);
}

std::optional<Message> receive() {
  int there = 0;
  MPI_Status status;
  MPI_Iprobe(MPI_ANY_SOURCE, MPI_ANY_TAG, MPI_COMM_WORLD, &there, &status);
  if (there == 0) {
    return std::nullopt;
  }
  int bytes = 0;
  MPI_Get_count(&status, MPI_BYTE, &bytes);
  Message out{status.MPI_SOURCE, static_cast<Note>(status.MPI_TAG),
              std::string(static_cast<std::size_t>(bytes), '\0')};
  MPI_Recv(out.text.data(), bytes, MPI_BYTE, out.from, status.MPI_TAG, MPI_COMM_WORLD,
           MPI_STATUS_IGNORE);
  return out;
}

#else

Place join_ranks() {
  for (const char* name : {"OMPI_COMM_WORLD_SIZE", "PMI_SIZE"}) {
    const char* size = std::getenv(name);
    if (size != nullptr && std::atoi(size) > 1) {
      throw Error(Fault::plan, std::string("a launcher started this as one of ") + size +
                                   " processes, but it was built without MPI; build it with "
                                   "-DTIDELOT_MPI=ON, or share the run with --part");
    }
  }
  return here;
}

void leave_ranks() {}
void end_ranks(int) noexcept {}
void send(int, Note, std::string_view) {}
std::optional<Message> receive() { return std::nullopt; }

#endif

}  // namespace tidelot::run
