#include "tests/cli/child.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/inotify.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>

namespace sixty::cli {
namespace {

struct Pipe {
  Pipe() { ok = ::pipe(ends.data()) == 0; }
  std::array<int, 2> ends = {-1, -1};
  bool ok = false;
};

// Between fork and exec: only what is allowed there.
[[noreturn]] void become_program(const Child& child, char** argv, int out, int err) {
  if (!child.output.empty()) out = ::open(child.output.c_str(), O_WRONLY | O_CREAT, 0666);
  ::dup2(out, STDOUT_FILENO);
  ::dup2(err, STDERR_FILENO);
  if (child.largest_file >= 0) {
    const auto bytes = static_cast<rlim_t>(child.largest_file);
    const rlimit limit = {bytes, bytes};
    ::setrlimit(RLIMIT_FSIZE, &limit);
  }
  ::execv(argv[0], argv);
  ::_exit(127);
}

bool read_some(int file, std::string& into) {
  char block[4096];
  const ssize_t got = ::read(file, block, sizeof block);
  if (got > 0) into.append(block, static_cast<std::size_t>(got));
  return got > 0;
}

// Until both pipes are closed at the other end.
void read_both(int out, int err, Ended& ended) {
  std::array<pollfd, 2> files = {pollfd{out, POLLIN, 0}, pollfd{err, POLLIN, 0}};
  std::array<std::string*, 2> texts = {&ended.out, &ended.err};
  while (files[0].fd >= 0 || files[1].fd >= 0) {
    ::poll(files.data(), files.size(), -1);
    for (std::size_t i = 0; i < files.size(); ++i) {
      if (files[i].fd < 0 || files[i].revents == 0) continue;
      if (read_some(files[i].fd, *texts[i])) continue;
      ::close(files[i].fd);
      files[i].fd = -1;
    }
  }
}

int watch(const std::string& folder) {
  const int watcher = ::inotify_init1(IN_CLOEXEC);
  ::inotify_add_watch(watcher, folder.c_str(), IN_CREATE);
  return watcher;
}

}  // namespace

Ended Child::run() const {
  std::vector<std::string> all = words;
  all.insert(all.begin(), SIXTY_PROGRAM);
  std::vector<char*> argv;
  for (std::string& word : all) argv.push_back(word.data());
  argv.push_back(nullptr);
  const Pipe out;
  const Pipe err;
  Ended ended;
  if (!out.ok || !err.ok) return ended;
  const int watcher = interrupt_at_file.empty() ? -1 : watch(interrupt_at_file);
  const pid_t process = ::fork();
  if (process < 0) return ended;
  if (process == 0) become_program(*this, argv.data(), out.ends[1], err.ends[1]);
  ::close(out.ends[1]);
  ::close(err.ends[1]);
  if (watcher >= 0) {
    std::string event;
    read_some(watcher, event);
    ::close(watcher);
    ::kill(process, SIGINT);
  }
  read_both(out.ends[0], err.ends[0], ended);
  int status = 0;
  ::waitpid(process, &status, 0);
  if (WIFEXITED(status)) ended.code = WEXITSTATUS(status);
  return ended;
}

Ended run_program_with(std::vector<std::string> words) {
  Child child;
  child.words = std::move(words);
  return child.run();
}

}  // namespace sixty::cli
