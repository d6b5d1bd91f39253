// SPDX-License-Identifier: Apache-2.0
#include "geoio/proj_context.hpp"

#include <new>

namespace tidelot::geoio {
namespace {

void listen(void* short_of_memory, int /*level*/, const char* message) {
  if (is_short_of_memory(message)) {
    *static_cast<bool*>(short_of_memory) = true;
  }
}

}  // namespace

bool is_short_of_memory(std::string_view message) {
  const std::size_t colon = message.find(": ");
  return colon != std::string_view::npos && message.substr(colon + 2) == "std::bad_alloc";
}

ProjContext::ProjContext()
    : short_of_memory_(std::make_unique<bool>(false)), context_(proj_context_create()) {
  if (context_ == nullptr) {
    throw std::bad_alloc();
  }
  proj_context_set_enable_network(context_.get(), 0);
  proj_log_func(context_.get(), short_of_memory_.get(), listen);
  proj_log_level(context_.get(), PJ_LOG_ERROR);
}

void ProjContext::throw_if_short_of_memory() const {
  if (*short_of_memory_) {
    throw std::bad_alloc();
  }
}

}  // namespace tidelot::geoio
