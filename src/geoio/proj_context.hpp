// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <proj.h>

#include <memory>
#include <string_view>

namespace tidelot::geoio {

struct ProjRelease {
  void operator()(PJ_CONTEXT* p) const { proj_context_destroy(p); }
  void operator()(PJ* p) const { proj_destroy(p); }
  void operator()(PJ_OBJ_LIST* p) const { proj_list_destroy(p); }
  void operator()(PJ_OPERATION_FACTORY_CONTEXT* p) const {
    proj_operation_factory_context_destroy(p);
  }
};
template <typename T>
using ProjHandle = std::unique_ptr<T, ProjRelease>;

/// Is a message of PROJ's "function: words" where it caught std::bad_alloc? It hands the words of
/// what it catches on.
[[nodiscard]] bool is_short_of_memory(std::string_view message);

/// PROJ's context of one thread: it prints nothing and asks no network.
class ProjContext {
 public:
  /// Throws std::bad_alloc.
  ProjContext();

  [[nodiscard]] PJ_CONTEXT* get() const { return context_.get(); }
  /// Throws std::bad_alloc where PROJ gave up since memory was short; else it gives nothing back
  /// for what it does not know. To be asked before saying so.
  void throw_if_short_of_memory() const;

 private:
  std::unique_ptr<bool> short_of_memory_;  ///< where PROJ's messages find it
  ProjHandle<PJ_CONTEXT> context_;
};

}  // namespace tidelot::geoio
