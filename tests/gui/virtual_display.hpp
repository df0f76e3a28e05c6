#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdio>
#include <string>

namespace sixty::gui {

/// Xvfb for as long as it lives; the server picks its own number. It does not begin anew when its
/// last client goes, which would refuse the next one while it does.
class VirtualDisplay {
 public:
  /// `without`: an extension that it does not have.
  explicit VirtualDisplay(const char* without = nullptr) {
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) return;
    child_ = fork();
    if (child_ == 0) {
      const std::string fd = std::to_string(ends[1]);
      std::freopen("/dev/null", "w", stderr);
      execlp("Xvfb", "Xvfb", "-displayfd", fd.c_str(), "-screen", "0", "1600x1200x24", "-noreset",
             without == nullptr ? nullptr : "-extension", without, nullptr);
      _exit(127);
    }
    close(ends[1]);
    char letter = 0;
    while (read(ends[0], &letter, 1) == 1 && letter != '\n') number_ += letter;
    close(ends[0]);
  }
  ~VirtualDisplay() {
    if (child_ <= 0) return;
    kill(child_, SIGTERM);
    waitpid(child_, nullptr, 0);
  }
  VirtualDisplay(const VirtualDisplay&) = delete;
  VirtualDisplay& operator=(const VirtualDisplay&) = delete;
  /// Empty where it could not be started.
  const std::string& number() const { return number_; }

 private:
  pid_t child_ = -1;
  std::string number_;
};

inline VirtualDisplay& display() {
  static VirtualDisplay only;
  return only;
}

}  // namespace sixty::gui
