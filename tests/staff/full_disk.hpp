#pragma once

#include <sys/resource.h>

#include <csignal>

namespace sixty::gui {

/// While it lives, no file of this process grows beyond so many bytes: to whoever writes the same
/// as a full disk.
class FullDisk {
 public:
  explicit FullDisk(rlim_t bytes) {
    ::getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit small = {bytes, before_.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &small);
    handler_ = std::signal(SIGXFSZ, SIG_IGN);
  }
  FullDisk(const FullDisk&) = delete;
  FullDisk& operator=(const FullDisk&) = delete;
  ~FullDisk() {
    ::setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, handler_);
  }

 private:
  rlimit before_ = {};
  void (*handler_)(int) = nullptr;
};

}  // namespace sixty::gui
